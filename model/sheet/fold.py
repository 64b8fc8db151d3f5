"""Folding: from the flat sheet to the formed piece, and back. Both are rigid facet by facet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..geometry.arrays import Array
from ..profiles.section import Section
from .sheet import Sheet, Tab


@dataclass(frozen=True, slots=True, eq=False)
class Facet:
    """One flat part of a folded sheet.

    Attributes:
        ring: ``(k, 2) float, inches``: its corners in ``(u, v)``, counter-clockwise.
        holes: Openings in it.
        fold: ``(3, 3)`` matrix: ``(u, v, 1)`` to the folded place ``(u, out, up)``.
        normal: ``(3,)`` unit vector out of the painted side.
        strip: Index of the strip it is, or that its tab hangs on.
        tab: It is a tab.
    """

    ring: Array
    holes: tuple[Array, ...]
    fold: Array
    normal: Array
    strip: int
    tab: bool

    def to_space(self, flat: Array) -> Array:
        """Return ``(n, 2)`` sheet points of this facet as ``(n, 3)`` points ``(u, out, up)``, inches."""
        return np.asarray(flat @ self.fold[:, :2].T + self.fold[:, 2])


def strip_fold(section: Section, strip: int) -> tuple[Array, Array]:
    """Return the ``(3, 3)`` fold of one strip and its ``(3,)`` painted normal."""
    folds, normals = _strip_folds(section)
    return folds[strip], normals[strip]


def in_scene(section: Section, strip: int, placement: Array, flat: Array) -> Array:
    """Return where ``(n, 2)`` sheet points of one strip lie, ``(n, 3) float, inches, scene frame``.

    Args:
        section: Of the sheet.
        strip: Which strip.
        placement: ``(4, 4)``: where the piece lies, from ``(u, out, up)`` to the scene frame.
        flat: The points, ``(u, v)``, inches.
    """
    fold, _ = strip_fold(section, strip)
    local = flat @ fold[:, :2].T + fold[:, 2]
    return np.asarray(local @ placement[:3, :3].T + placement[:3, 3])


@lru_cache(256)
def _strip_folds(section: Section) -> tuple[Array, Array]:
    """Return the folds of all strips, ``(n, 3, 3)``, and their painted normals, ``(n, 3)``."""
    way = np.diff(section.points, axis=0) / np.diff(section.v)[:, None]
    folds = np.zeros((section.strips, 3, 3))
    folds[:, 0, 0] = 1.0
    folds[:, 1:, 1] = way
    folds[:, 1:, 2] = section.points[:-1] - way * section.v[:-1, None]
    normals = np.column_stack([np.zeros(section.strips), -way[:, 1], way[:, 0]])
    folds.flags.writeable = normals.flags.writeable = False
    return folds, normals


def tab_fold(parent: Array, normal: Array, tab: Tab) -> tuple[Array, Array]:
    """Return the fold and painted normal of a tab, from those of the strip or the tab it hangs on."""
    start, end = tab.hinge
    along = (end - start) / np.linalg.norm(end - start)
    away = np.array([-along[1], along[0]])
    if (tab.flap.mean(axis=0) - start) @ away < 0:
        away = -away
    along_space, away_space = parent[:, :2] @ along, parent[:, :2] @ away
    cos, sin = math.cos(tab.angle), math.sin(tab.angle)
    folded = cos * away_space - sin * normal
    linear = np.outer(along_space, along) + np.outer(folded, away)
    fold = np.column_stack([linear, parent[:, :2] @ start + parent[:, 2] - linear @ start])
    return fold, cos * normal + sin * away_space


def facets(sheet: Sheet) -> list[Facet]:
    """Return the facets of ``sheet``, strips first, tabs after them."""
    section = sheet.section
    result: list[Facet] = []
    folds = [strip_fold(section, strip) for strip in range(section.strips)]
    low = _split(sheet.low.line, section.v, inward=1.0)
    high = _split(sheet.high.line, section.v, inward=-1.0)
    for strip, (fold, normal) in enumerate(folds):
        ring = np.concatenate([low[strip][::-1], high[strip]])
        top, bottom = section.v[strip], section.v[strip + 1]
        holes = tuple(h for h in sheet.holes if top <= h[0, 1] <= bottom)
        result.append(Facet(ring, holes, fold, normal, strip, False))
    folded: dict[int, tuple[Array, Array]] = {}
    for tab in sheet.tabs:
        fold, normal = tab_fold(*(folds[tab.strip] if tab.on is None else folded[id(tab.on)]), tab)
        folded[id(tab)] = fold, normal
        ring = np.concatenate([tab.hinge, tab.flap])
        if _signed_area(ring) < 0:
            ring = ring[::-1]
        result.append(Facet(ring, (), fold, normal, tab.strip, True))
    return result


def _split(cut: Array, v: Array, inward: float) -> list[Array]:
    """Split an end's cut at the bend lines; each strip gets every point on its border that lies in its metal."""
    first = np.searchsorted(cut[:, 1], v, side="left")
    last = np.searchsorted(cut[:, 1], v, side="right") - 1
    parts = []
    for k in range(len(v) - 1):
        begin, end = int(first[k]), int(last[k + 1])
        if begin < last[k] or end > first[k + 1]:
            begin_u, end_u = cut[last[k], 0], cut[first[k + 1], 0]
            keep = [i for i in range(begin, last[k]) if (cut[i, 0] - begin_u) * inward > 0]
            keep += range(last[k], first[k + 1] + 1)
            keep += [i for i in range(first[k + 1] + 1, end + 1) if (cut[i, 0] - end_u) * inward > 0]
            parts.append(cut[keep])
        else:
            parts.append(cut[begin : end + 1])
    return parts


def _signed_area(ring: Array) -> float:
    u, v = ring[:, 0], ring[:, 1]
    return float((u * np.roll(v, -1) - v * np.roll(u, -1)).sum() / 2)
