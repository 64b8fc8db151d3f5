// The sheet that lists every piece, run by run.

import { button, make } from "trimwright/common/elements.js";
import { visit } from "trimwright/read/piece_card.js";
import { tag } from "trimwright/read/tag.js";

export function piecesSheet(app) {
  const runs = new Map();
  for (const piece of app.data.pieces) runs.set(piece.run, [...(runs.get(piece.run) ?? []), piece]);
  const el = make("div", {}, [...runs].map(([run, pieces]) => make("div", { class: "tw-block" },
    make("h3", { text: run }),
    make("ul", { class: "tw-rows" }, pieces.map((piece) => {
      const row = button("", () => visit(app, piece.mark, { focus: true }), { class: "tw-row" });
      row.append(tag(piece), make("span", { class: "tw-row-text", text: piece.short ? `short piece, ${piece.where}` : piece.where }), make("b", { class: "tw-figure", text: piece.says }));
      return make("li", {}, row);
    })))));
  return { title: "Pieces", el };
}
