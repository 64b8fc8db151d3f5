// The sheet that lays the ways to begin the runs side by side: what each comes to, and a way to take one.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { asked } from "trimwright-app/asking.js";
import { betterLayout } from "trimwright-app/better_layout.js";
import { table } from "trimwright-app/blocks.js";

export function compareSheet(workspace) {
  const el = make("div", {}, make("p", { class: "tw-lead", text: say("Laying out from each start…") }));
  asked(workspace, "starts").then((found) => el.replaceChildren(...contents(workspace, found)));
  return { title: say("Where full lengths begin"), el };
}

function contents(workspace, { problem, starts, fields, rows, note }) {
  if (problem) return [make("p", { class: "tw-problem", text: problem })];
  const { act } = workspace;
  // A column for each rule, so that they stand side by side on a phone, too.
  const turned = { fields: ["", ...rows.map(([name]) => name)],
    rows: fields.slice(1).map((name, i) => [name, ...rows.map((row) => row[i + 1])]) };
  const chips = starts.map((start, i) => button(rows[i][0], () => act({ do: "start", start }), { class: "tw-chip" }));
  return [
    table(turned),
    note ? make("p", { class: "tw-quiet", text: note }) : "",
    make("h3", { class: "tw-take", text: say("Begin every run") }),
    make("div", { class: "tw-chips" }, chips),
    make("h3", { class: "tw-take", text: say("Or run by run") }),
    betterLayout(workspace),
  ];
}
