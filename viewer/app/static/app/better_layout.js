// The search for a better layout: a button, then before and after in a table and a picture, and a way to take it.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { asked } from "trimwright-app/asking.js";
import { table } from "trimwright-app/blocks.js";

export function betterLayout(workspace) {
  const place = make("div", { class: "tw-better", "aria-live": "polite" });
  const search = async () => {
    place.replaceChildren(make("p", { class: "tw-lead", text: say("Trying layouts; this takes some seconds…") }));
    place.replaceChildren(...found(await asked(workspace, "better"), workspace.act));
  };
  place.append(button(say("Search for a better layout"), search, { class: "tw-main" }));
  return place;
}

function found({ problem, fields, rows, lines, better, picture }, act) {
  if (problem) return [make("p", { class: "tw-problem", text: problem })];
  return [
    table({ fields, rows, right: [false, true, true] }),
    make("ul", { class: "tw-quiet" }, lines.map((text) => make("li", { text }))),
    picture ? make("img",
      { class: "tw-better-picture", alt: say("Before and after, run by run"), src: `data:image/png;base64,${picture}` }) : "",
    better ? button(say("Take the better layout"), () => act({ do: "better" }), { class: "tw-main" }) : "",
  ];
}
