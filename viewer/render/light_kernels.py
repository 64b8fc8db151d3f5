"""Light: what the sun and the sky do to each pixel.

Each kernel works on some rows and lets others work beside it; whoever lights a pixel, it comes out the same.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimwright.model.geometry.arrays import Array

from .compiled import inlined, kernel

Floats = NDArray[np.float32]
Ints = NDArray[np.int32]
Bytes = NDArray[np.uint8]

CHALK = 0.9
"""What is rougher mirrors nothing that would be seen."""

SHOULDER = 0.78
"""Light that is stronger is drawn in, so that nothing is burnt out."""

MOTTLE = (9.0, 46.0)
"""Sizes of the patches of the ground, inches."""


class Eye(NamedTuple):
    """A camera: where it is, lines of sight an inch of depth long, ``rays @ (x, y, 1)``, and how rows are skewed."""

    place: Array
    rays: Array
    skew: float


class View(NamedTuple):
    """What an eye sees: ``(h, w)`` the face that each part of a pixel shows, its nearness, how much lines cover it."""

    eye: Eye
    shown: Ints
    nearness: Floats
    ink: Bytes


class Faces(NamedTuple):
    """What each face is: ``(m, 3)`` unit normal, ``(m, 5)`` and more: linear color, share of bare metal and
    roughness; from ``ground`` on it is ground."""

    normals: Array
    paint: Floats
    ground: int


class Lamps(NamedTuple):
    """Lights far away: ``(k, 3)`` unit vectors toward each, ``(k, 3, 4)`` from a point to pixel and height in its map,
    ``(k, s, s)`` heights of what stands in its way, and the size of a map's pixel, inches."""

    ways: Array
    views: Array
    maps: Floats
    texel: float


class Mood(NamedTuple):
    """Linear light of the sun, the sky and from below; how strongly things mirror, how dark lines are and their linear
    color, and the colors that are mirrored overhead, low down and from below."""

    warm: tuple[float, float, float]
    cool: tuple[float, float, float]
    earth: tuple[float, float, float]
    mirror: float
    strength: float
    ink: tuple[float, float, float]
    air: tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]]


class Scale(NamedTuple):
    """A picture's color: ``(256,)`` what each step of it is in light, and what a light is as a step, by its root."""

    linear: Floats
    steps: Bytes


class Lawn(NamedTuple):
    """Where the ground is seen: its middle, and how far out it fades away, inches."""

    x: float
    y: float
    reach: float


@inlined
def _in_map(lamps: Lamps, lamp: int, point: Any, normal: Any) -> Any:
    """Return where a point lies in a lamp's map, pixels across and down, and its height, a little off its face."""
    off = 1.5 * lamps.texel
    px, py, pz = point[0] + off * normal[0], point[1] + off * normal[1], point[2] + off * normal[2]
    to = lamps.views
    x = to[lamp, 0, 0] * px + to[lamp, 0, 1] * py + to[lamp, 0, 2] * pz + to[lamp, 0, 3]
    y = to[lamp, 1, 0] * px + to[lamp, 1, 1] * py + to[lamp, 1, 2] * pz + to[lamp, 1, 3]
    height = to[lamp, 2, 0] * px + to[lamp, 2, 1] * py + to[lamp, 2, 2] * pz + to[lamp, 2, 3]
    return x, y, height + 0.8 * lamps.texel


@inlined
def _hard(lamps: Lamps, lamp: int, point: Any, normal: Any) -> float:
    """Return whether a lamp's light reaches a point: 1 or 0; it does outside the lamp's map."""
    size = lamps.maps.shape[1]
    x, y, height = _in_map(lamps, lamp, point, normal)
    if x < 0 or y < 0 or x >= size or y >= size:
        return 1.0
    return 1.0 if lamps.maps[lamp, int(y), int(x)] <= height else 0.0


@inlined
def _soft(lamps: Lamps, lamp: int, point: Any, normal: Any) -> float:
    """Return how much of a lamp's light reaches a point: what is free of a square of three by three of its map."""
    size = lamps.maps.shape[1]
    x, y, height = _in_map(lamps, lamp, point, normal)
    if x < 2 or y < 2 or x > size - 3 or y > size - 3:
        return 1.0
    left, top = int(x - 1.5), int(y - 1.5)
    right, bottom = x - 1.5 - left, y - 1.5 - top
    total = 0.0
    for v in range(4):
        row = 0.0
        for u in range(4):
            if lamps.maps[lamp, top + v, left + u] <= height:
                row += (1 - right) if u == 0 else (right if u == 3 else 1.0)
        total += row * ((1 - bottom) if v == 0 else (bottom if v == 3 else 1.0))
    return total / 9


@inlined
def _sight(eye: Eye, normals: Array, face: int, near: float, column: int, row: int) -> Any:
    """Return the point that a pixel shows, the normal turned to the eye, and the unit vector toward the eye."""
    rays, place, far = eye.rays, eye.place, 1 / near
    x, y = column + 0.5 + (eye.skew if row % 2 == 0 else -eye.skew), row + 0.5
    rx = rays[0, 0] * x + rays[0, 1] * y + rays[0, 2]
    ry = rays[1, 0] * x + rays[1, 1] * y + rays[1, 2]
    rz = rays[2, 0] * x + rays[2, 1] * y + rays[2, 2]
    unit = -1 / math.sqrt(rx * rx + ry * ry + rz * rz)
    nx, ny, nz = normals[face, 0], normals[face, 1], normals[face, 2]
    if nx * rx + ny * ry + nz * rz > 0:
        nx, ny, nz = -nx, -ny, -nz
    point = (place[0] + rx * far, place[1] + ry * far, place[2] + rz * far)
    return point, (nx, ny, nz), (rx * unit, ry * unit, rz * unit)


@kernel
def open_sky(
    eye: Eye, shown: Ints, nearness: Floats, normals: Array, sky: Lamps, top: int, bottom: int, got: Floats
) -> None:
    """Find how much of the sky that they face reaches some pixels: every fourth across and down.

    Of the directions of the sky each follows every fourth, and its neighbors the others.

    Args:
        eye: The camera.
        shown: ``(h, w)`` faces.
        nearness: ``(h, w)``.
        normals: ``(m, 3)``.
        sky: Its directions.
        top: First row of ``got``.
        bottom: The row after the last.
        got: ``(2, h / 4, w / 4)``: what reaches a pixel and what could, to be changed.
    """
    for row in range(top, bottom):
        for column in range(got.shape[2]):
            y, x = min(row * 4 + 1, shown.shape[0] - 1), min(column * 4 + 1, shown.shape[1] - 1)
            face = shown[y, x]
            if face < 0:
                continue
            point, normal, _ = _sight(eye, normals, face, nearness[y, x], x, y)
            nx, ny, nz = normal
            light, most = 0.0, 0.0
            for lamp in range(row % 2 * 2 + column % 2, sky.ways.shape[0], 4):
                slant = nx * sky.ways[lamp, 0] + ny * sky.ways[lamp, 1] + nz * sky.ways[lamp, 2]
                if slant > 0:
                    most += slant
                    light += slant * _hard(sky, lamp, point, normal)
            got[0, row, column], got[1, row, column] = light, most


@inlined
def _lit(
    point: Any, normal: Any, toward: Any, paint: Floats, face: int, open_sky: float, sun: Lamps, mood: Mood
) -> Any:
    """Return the linear color of a point that is seen."""
    nx, ny, nz = normal
    wx, wy, wz = sun.ways[0, 0], sun.ways[0, 1], sun.ways[0, 2]
    direct = max(0.0, nx * wx + ny * wy + nz * wz)
    if direct > 0:
        direct *= _soft(sun, 0, point, normal)
    above = (0.5 + 0.5 * nz) * open_sky
    below = (0.5 - 0.5 * nz) * (0.3 + 0.7 * open_sky)
    red = direct * mood.warm[0] + above * mood.cool[0] + below * mood.earth[0]
    green = direct * mood.warm[1] + above * mood.cool[1] + below * mood.earth[1]
    blue = direct * mood.warm[2] + above * mood.cool[2] + below * mood.earth[2]
    metal, rough = paint[face, 3], paint[face, 4]
    if rough >= CHALK:
        return _toned(paint[face, 0] * red), _toned(paint[face, 1] * green), _toned(paint[face, 2] * blue)
    scale, more, sky, glint = _mirrored(normal, toward, (wx, wy, wz), rough, direct)
    sky *= mood.mirror * (0.35 + 0.65 * open_sky)
    up = _height(normal, toward)
    return (
        _coated(
            paint[face, 0], metal, red, (scale, more), sky * _sky(mood, up, rough, 0), glint * mood.warm[0]
        ),
        _coated(
            paint[face, 1], metal, green, (scale, more), sky * _sky(mood, up, rough, 1), glint * mood.warm[1]
        ),
        _coated(
            paint[face, 2], metal, blue, (scale, more), sky * _sky(mood, up, rough, 2), glint * mood.warm[2]
        ),
    )


@inlined
def _height(normal: Any, toward: Any) -> float:
    """Return how steeply up the mirrored line of sight goes."""
    facing = normal[0] * toward[0] + normal[1] * toward[1] + normal[2] * toward[2]
    return float(2 * facing * normal[2] - toward[2])


@inlined
def _sky(mood: Mood, up: float, rough: float, band: int) -> float:
    """Return what a surface mirrors of the sky and the ground, one of three colors: the rougher, the more blurred."""
    wide = 0.04 + 0.75 * rough
    share = min(max(0.5 + 0.5 * up / wide, 0.0), 1.0)
    share = share * share * (3 - 2 * share)
    high = min(max(up, 0.0), 1.0) ** (0.55 + 0.6 * rough)
    zenith, horizon, ground = mood.air
    above = horizon[band] + (zenith[band] - horizon[band]) * high
    return float(ground[band] + (above - ground[band]) * share)


@inlined
def _mirrored(normal: Any, toward: Any, sun: Any, rough: float, direct: float) -> Any:
    """Return how a surface mirrors: factor and summand of what it does face on, strength of the sky, and of the sun.

    Source:
        B. Karis, "Physically based shading on mobile" (2014): the polynomial for the sky; the sun's spot is that of
        Trowbridge and Reitz (GGX) with the visibility term of the same article. From memory.
    """
    facing = max(normal[0] * toward[0] + normal[1] * toward[1] + normal[2] * toward[2], 1e-3)
    first, second = 1 - rough, 0.0425 - 0.0275 * rough
    third, fourth = 1.04 - 0.572 * rough, 0.022 * rough - 0.04
    peak = min(first * first, math.exp(-6.4324 * facing)) * first + second
    glint = 0.0
    if direct > 0:
        hx, hy, hz = toward[0] + sun[0], toward[1] + sun[1], toward[2] + sun[2]
        size = math.sqrt(hx * hx + hy * hy + hz * hz) + 1e-9
        half = (normal[0] * hx + normal[1] * hy + normal[2] * hz) / size
        alpha = rough * rough * rough * rough
        part = half * half * (alpha - 1) + 1
        glint = min(direct * (0.25 + 0.25 * rough) * alpha / (part * part), 2.5)
    return 1.04 * -peak + third, 1.04 * peak + fourth, 1.0, glint


@inlined
def _coated(color: float, metal: float, light: float, mirror: Any, sky: float, glint: float) -> float:
    """Return one of three colors of a coat under a light, with what it mirrors of the sky and of the sun."""
    face_on = 0.04 * (1 - metal) + color * metal
    shine = face_on * mirror[0] + mirror[1]
    return _toned(color * (1 - metal) * light + shine * sky + face_on * glint)


@inlined
def _toned(light: float) -> float:
    """Return a light as it is drawn: the brightest drawn in."""
    if light <= SHOULDER:
        return light
    return SHOULDER + (1 - SHOULDER) * (1 - math.exp((SHOULDER - light) / (1 - SHOULDER)))


@kernel
def light(
    view: View,
    faces: Faces,
    lawn: Lawn,
    share: Floats,
    sun: Lamps,
    mood: Mood,
    scale: Scale,
    top: int,
    bottom: int,
    picture: Bytes,
) -> None:
    """Light some rows of a picture: each face that a pixel shows once, from its two by two parts.

    Args:
        view: What is seen, in twice as many rows and columns.
        faces: What each face is.
        lawn: The ground.
        share: ``(h / 2, w / 2)`` how much of the sky is open.
        sun: The sun.
        mood: The light.
        scale: The steps of a picture's color.
        top: First row.
        bottom: The row after the last.
        picture: ``(h, w, 3)`` with what is seen behind everything, to be changed.
    """
    for row in range(top, bottom):
        _light_row(view, faces, lawn, share, sun, mood, scale, row, picture)


@kernel
def _light_row(
    view: View,
    faces: Faces,
    lawn: Lawn,
    share: Floats,
    sun: Lamps,
    mood: Mood,
    scale: Scale,
    row: int,
    picture: Bytes,
) -> None:
    """Light one row of a picture."""
    eye, shown, nearness, ink = view
    linear, steps = scale
    for column in range(picture.shape[1]):
        y, x = 2 * row, 2 * column
        drawn = int(ink[y, x]) + ink[y, x + 1] + ink[y + 1, x] + ink[y + 1, x + 1]
        red, green, blue, cover = 0.0, 0.0, 0.0, 0.0
        for part in range(4):
            times = _times(shown, y, x, part)
            if times == 0:
                continue
            v, u = y + part // 2, x + part % 2
            face = shown[v, u]
            point, normal, toward = _sight(eye, faces.normals, face, nearness[v, u], u, v)
            sky = share[row // 2, column // 2]
            color = _lit(point, normal, toward, faces.paint, face, sky, sun, mood)
            weight = 0.25 * times
            if face >= faces.ground:
                weight *= _faded(lawn, point)
                tone = _mottled(point)
                color = (color[0] * tone, color[1] * tone, color[2] * tone)
            red += weight * color[0]
            green += weight * color[1]
            blue += weight * color[2]
            cover += weight
            if times == 4:
                break
        if cover == 0 and drawn == 0:
            continue
        dark = drawn / (4 * 255) * mood.strength
        for band, color in enumerate((red, green, blue)):
            color += (1 - cover) * linear[picture[row, column, band]]
            color += dark * (mood.ink[band] - color)
            root = math.sqrt(max(0.0, min(1.0, color)))
            picture[row, column, band] = steps[int(root * (steps.shape[0] - 1) + 0.5)]


@inlined
def _times(shown: Ints, top: int, left: int, part: int) -> int:
    """Return how many parts of a pixel show the face that a part shows; 0 for nothing and where an earlier one does."""
    face = shown[top + part // 2, left + part % 2]
    count = 0
    for other in range(4):
        if face >= 0 and shown[top + other // 2, left + other % 2] == face:
            if other < part:
                return 0
            count += 1
    return count


@kernel
def _faded(lawn: Lawn, point: Any) -> float:
    """Return how much of the ground is seen at a point, from 1 in the middle to 0."""
    x, y = point[0] - lawn.x, point[1] - lawn.y
    share = max(0.0, 1 - math.sqrt(x * x + y * y) / lawn.reach)
    return share * share * (3 - 2 * share)


@kernel
def _mottled(point: Any) -> float:
    """Return how light the ground is at a point, about 1: it is not all alike."""
    tone = 1.0
    for size, deep in ((MOTTLE[0], 0.055), (MOTTLE[1], 0.06)):
        x, y = point[0] / size, point[1] / size
        left, low = math.floor(x), math.floor(y)
        u, v = x - left, y - low
        u, v = u * u * (3 - 2 * u), v * v * (3 - 2 * v)
        a = _chance(left, low) * (1 - u) + _chance(left + 1, low) * u
        b = _chance(left, low + 1) * (1 - u) + _chance(left + 1, low + 1) * u
        tone += deep * (2 * (a * (1 - v) + b * v) - 1)
    return tone


@inlined
def _chance(x: float, y: float) -> float:
    """Return a number from 0 to 1 that goes with a place, as if by chance."""
    wave = math.sin(x * 12.9898 + y * 78.233) * 43758.5453
    return float(wave - math.floor(wave))
