"""What a page prints, and shows where nothing can be drawn: pictures, cautions, pieces and findings as plain tables."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

from trimwright.model.checks.record import Finding
from trimwright.model.layout import Layout

from ..report.words import SEVERITY, marks_of, sentence_of
from ..words.speaker import speaker_of


def printed_lists(
    layout: Layout, findings: Sequence[Finding], payload: Mapping[str, Any], stills: Mapping[str, bytes]
) -> str:
    """Return the section as HTML; every text in it is escaped."""
    show, say = layout.scene.tape, speaker_of(layout.scene)
    rows = "".join(
        f"<tr><th scope=row>{escape(piece['mark'])}</th><td>{escape(piece['run'])}</td>"
        f"<td>{escape(piece['hand'] or '')}</td><td>{escape(piece['says'])}{' (short)' if piece['short'] else ''}</td>"
        f"<td>{escape(piece['stock'])}</td><td>{escape(_lies(piece))}</td>"
        f"<td>{escape(marks_of((at for at, _ in piece['screws']), show))}</td></tr>"
        for piece in payload["pieces"]
    )
    found = "".join(
        f"<li><b>{escape(say(SEVERITY[finding.severity]))}: {escape(finding.rule)}.</b> "
        f"{escape(say(sentence_of(finding, show)))}</li>"
        for finding in findings
    )
    pictures = "".join(
        f'<figure><img alt="{escape(name)}" src="data:image/jpeg;base64,{base64.b64encode(picture).decode("ascii")}">'
        f"<figcaption>{escape(name)}</figcaption></figure>"
        for name, picture in stills.items()
    )
    return f"""<section class="tw-printed" aria-label="Lists to print">
<h1>{escape(layout.scene.title)}</h1>
<p id="plain-reason"></p>
<p class="tw-printed-cautions">{escape(payload["cautions"])}</p>
<img id="print-view" alt="">
<div class="tw-stills">{pictures}</div>
<h2>Pieces</h2>
<table><thead><tr><th scope=col>Mark</th><th scope=col>Run</th><th scope=col>Hand</th><th scope=col>Length</th>
<th scope=col>From stock</th><th scope=col>Lies</th><th scope=col>Screws, from the low end</th></tr></thead>
<tbody>{rows}</tbody></table>
<h2>Findings</h2>
<ol>{found or "<li>None.</li>"}</ol>
</section>"""


def _lies(piece: Mapping[str, Any]) -> str:
    return f"over {', '.join(piece['under'])}" if piece["under"] else ""
