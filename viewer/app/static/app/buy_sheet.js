// The sheet of what to buy.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { block, table } from "trimwright-app/blocks.js";

export function buySheet({ state: { shopping } }) {
  const title = say("To buy");
  if (!shopping) return { title, el: make("p", { class: "tw-lead", text: say("Nothing yet.") }) };
  const quiet = (text) => make("p", { class: "tw-quiet", text });
  const lists = shopping.lists.map((list) => block(list.name, table(list), list.note && quiet(list.note)));
  return { title, el: make("div", {}, lists, make("div", { class: "tw-block" }, shopping.proofs.map(quiet))) };
}
