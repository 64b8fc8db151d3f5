// The sheet of a sale, from the house to the pages to sign: what there is so far of each, and the way to it.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { looksOf } from "trimwright/read/looks.js";
import { address } from "trimwright-app/asking.js";
import { download } from "trimwright-app/file_sheet.js";
import { fieldOf, valueOf } from "trimwright-app/told_fields.js";

export function sellSheet(workspace) {
  const { state, roof } = workspace;
  const page = download(address(workspace, "customer"), say("Customer's page"), say("one file for any telephone or computer: the finished roof in its looks, nothing of the workshop"));
  return { title: say("Sell this roof"), el: make("div", {},
    make("ol", { class: "tw-rows tw-ways" },
      way(say("The house"), houseSaid(state), () => workspace.revealPart("roof")),
      way(say("Doors, windows, siding, gutters"), say("as the pictures show them"), () => workspace.revealPart("house")),
      way(say("Metal, colors and looks"), looksSaid(roof.app), () => roof.open("finish", undefined, { focus: true })),
      way(say("The customer's own photograph"), valueOf(state, "photo", "file") || say("none yet"), () => workspace.open("photo")),
      way(say("Offer"), valueOf(state, "shop", "prices") || say("no price list yet"), () => workspace.open("offer")),
      make("li", {}, state.current ? page : make("p", { class: "tw-flag", text: say("Something in the form cannot be read. Put it right, then the page can be had.") }))),
    make("p", { class: "tw-quiet", text: say("At the table: the button with four corners shows the house alone; Page Up and Page Down go from look to look.") })) };
}

function way(text, says, act) {
  const one = button("", act, { class: "tw-row" });
  one.append(make("span", { class: "tw-row-text" }, make("b", { text }), make("span", { class: "tw-quiet", text: says })));
  return make("li", {}, one);
}

// The form and the sizes of the house, as they are written.
function houseSaid(state) {
  const form = fieldOf(state, "roof", "form"), named = form?.choices.find(([name]) => name === form.value)?.[1] ?? "";
  const [long, wide, pitch] = ["length", "width", "pitch"].map((name) => valueOf(state, "roof", name));
  return [named, [long, wide].filter(Boolean).join(" x "), pitch].filter(Boolean).join(", ");
}

const looksSaid = (app) => looksOf(app).map(({ name }, i) => say("{letter}  {name}", { letter: String.fromCharCode(65 + i), name })).join(", ");
