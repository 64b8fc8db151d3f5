// The sheet that lists every piece, run by run.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { visit } from "trimwright/read/piece_card.js";
import { tag } from "trimwright/read/tag.js";

export function piecesSheet(app) {
  const runs = new Map();
  for (const piece of app.data.pieces) runs.set(piece.run, [...(runs.get(piece.run) ?? []), piece]);
  const blocks = [...runs.values()].map((pieces) =>
    make("div", { class: "tw-block" }, make("h3", { text: pieces[0].called }),
      make("ul", { class: "tw-rows" }, pieces.map((piece) => rowOf(app, piece)))));
  return { title: say("Pieces"), el: make("div", {}, blocks) };
}

function rowOf(app, piece) {
  const { where, short, says } = piece;
  const row = button("", () => visit(app, piece.mark, { focus: true }), { class: "tw-row" });
  const text = short ? say("Short piece, {where}", { where }) : where;
  row.append(tag(piece), make("span", { class: "tw-row-text", text }), make("b", { class: "tw-figure", text: says }));
  return make("li", {}, row);
}
