// Where the screws of a piece go, as marks on a tape hooked on its low end.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { tapeDrawing } from "trimwright/read/tape_drawing.js";

export function tapeMarks(app, piece) {
  const rows = rowsOf(piece);
  return [
    make("p", { class: "tw-quiet", text: say("Hook the tape on the low end of the blank and set the marks out before that end is cut.") }),
    make("div", { class: "tw-tape-box", tabindex: "0", role: "group", "aria-label": say("The piece along a tape; slide it sideways") },
      tapeDrawing(app, piece)),
    ...rows.map((row, i) => blockOf(app, row, rows.length > 1 ? i + 1 : null)),
  ];
}

// The rows of screws across a piece, each with its tape marks from the low end: [{across, marks}], inches.
export function rowsOf(piece) {
  const rows = new Map();
  for (const [at, across] of piece.screws) rows.set(across, [...(rows.get(across) ?? []), at]);
  return [...rows].map(([across, marks]) => ({ across, marks: marks.sort((a, b) => a - b) })).sort((a, b) => a.across - b.across);
}

function blockOf(app, { across, marks }, row) {
  const text = row ? say("Screws, row {row}: {across} from the inboard edge", { row, across: app.length(across) }) : say("Screws");
  const list = marks.map((at) => make("li", { class: "tw-figure", text: app.length(at) }));
  return make("div", { class: "tw-block" }, make("h3", { text }), make("ol", { class: "tw-marks" }, list));
}
