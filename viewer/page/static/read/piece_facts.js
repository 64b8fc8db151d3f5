// What a piece is: its length, stock, hand, ends, screws and place in the order, its flat pattern, and its findings.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { wholeDrawing } from "trimwright/read/flat_pattern.js";
import { plainName, severityWord } from "trimwright/read/severity.js";
import { rowsOf } from "trimwright/read/tape_marks.js";

export function pieceFacts(app, piece) {
  const { findings } = app.data;
  return [
    piece.short && make("p", { class: "tw-flag", text: say("Short piece of its run: {where}", { where: piece.where }) }),
    make("dl", { class: "tw-facts" },
      factsOf(piece).map(([name, value]) => make("div", {}, make("dt", { text: name }), make("dd", { text: value })))),
    make("figure", { class: "tw-figure-box" }, wholeDrawing(app, piece),
      make("figcaption", { text: say("Flat pattern, painted side up. Dashed: bends.") })),
    ...findings.filter((one) => one.pieces.includes(piece.mark)).map((one) => linkTo(app, one)),
  ].filter(Boolean);
}

function factsOf(piece) {
  const { says, fit, stock, left, hand, ends, metal, step, under } = piece;
  return [
    [say("Length"), says],
    ...(fit ? [[say("Cut to fit"), fit]] : []),
    [say("Cut from"), left ? say("{stock} stock, {left} left over", { stock, left }) : say("{stock} stock", { stock })],
    [say("Hand"), hand],
    [say("Low end"), ends.low.says],
    [say("High end"), ends.high.says],
    [say("Screws"), screwsOf(piece)],
    [say("Metal"), metal],
    [say("Set"), under.length ? say("No. {step} in order, over {marks}", { step, marks: under.join(", ") })
      : say("No. {step} in order", { step })],
  ];
}

function screwsOf(piece) {
  const rows = rowsOf(piece).length, count = piece.screws.length;
  return rows > 1 ? say("{count}, in {rows} rows", { count, rows }) : say("{count}", { count });
}

function linkTo(app, { number, severity, rule }) {
  const text = say("{severity}: {rule}", { severity: severityWord(severity), rule: plainName(rule) });
  return button(text, () => app.open("findings", number), { class: `tw-link tw-is-${severity}` });
}
