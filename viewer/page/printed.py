"""What a page prints, and shows where nothing can be drawn: pictures, cautions, pieces and findings as plain tables."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Mapping, Sequence
from html import escape
from typing import Any

from trimwright.model.checks.groups import groups_of
from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout
from trimwright.model.message import Listed, message

from ..report.screw_marks import screws_told
from ..report.words import SEVERITY, group_told
from ..words.speaker import Speaker

COLUMNS = (
    message("Mark"),
    message("Run"),
    message("Hand"),
    message("Length"),
    message("From stock"),
    message("Lies"),
    message("Screws, from the low end"),
)
"""Headings of the list of pieces."""


def printed_lists(
    layout: Layout,
    findings: Sequence[Finding],
    payload: Mapping[str, Any],
    stills: Mapping[str, bytes],
    say: Speaker,
) -> str:
    """Return the section as HTML; every text in it is escaped."""
    cautions = "".join(f"<li>{escape(caution)}</li>" for caution in payload["cautions"])
    about, pieces, found = (
        escape(words) for words in (say("Lists to print"), say("Pieces"), say("Findings"))
    )
    none = escape(say("None."))
    terms = "".join(f"<li>{escape(term)}</li>" for term in payload["terms"])
    return f"""<section class="tw-printed" aria-label="{about}">
<h1>{escape(layout.scene.title)}</h1>
<p id="plain-reason"></p>
<ul class="tw-printed-cautions">{cautions}</ul>
<img id="print-view" alt="">
<div class="tw-stills">{"".join(_still(name, picture) for name, picture in stills.items())}</div>
<h2>{pieces}</h2>
<table><thead><tr>{"".join(f"<th scope=col>{escape(say(name))}</th>" for name in COLUMNS)}</tr></thead>
<tbody>{"".join(_row(piece, layout, say) for piece in payload["pieces"])}</tbody></table>
<h2>{found}</h2>
<ul class="tw-printed-terms">{terms}</ul>
<ol>{"".join(_items(findings, say)) or f"<li>{none}</li>"}</ol>
</section>"""


def _row(piece: Mapping[str, Any], layout: Layout, say: Speaker) -> str:
    length = say("{length} (short)", length=piece["says"]) if piece["short"] else piece["says"]
    lies = say("over {marks}", marks=Listed(tuple(piece["under"]), "comma")) if piece["under"] else ""
    screws = screws_told(layout, layout.part(piece["mark"]), say)
    cells = (piece["run"], piece["hand"], length, piece["stock"], lies, screws)
    return f"<tr><th scope=row>{escape(piece['mark'])}</th>{''.join(f'<td>{escape(cell)}</td>' for cell in cells)}</tr>"


def _items(findings: Sequence[Finding], say: Speaker) -> Iterator[str]:
    """Yield an item for each group of findings, numbered like the first of its pins."""
    number = 1
    for group in groups_of(findings):
        yield _item(number, group, say)
        number += len(group)


def _item(number: int, group: Sequence[Finding], say: Speaker) -> str:
    finding = group[0]
    follows = "" if finding.cause is None else ' class="tw-follows"'
    head = say("{severity}: {rule}", severity=SEVERITY[finding.severity], rule=finding.rule)
    words = escape(say(group_told(group, say.tape)))
    return f'<li value="{number}"{follows}><b>{escape(head)}</b> {words}</li>'


def _still(name: str, picture: bytes) -> str:
    data = base64.b64encode(picture).decode("ascii")
    return (
        f'<figure><img alt="{escape(name)}" src="data:image/jpeg;base64,{data}">'
        f"<figcaption>{escape(name)}</figcaption></figure>"
    )
