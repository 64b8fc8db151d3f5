// The sheet of a sale, from the house to the pages to sign: what there is so far of each, and the way to it.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { lengthWriter } from "trimwright/common/lengths.js";
import { showFinished } from "trimwright/read/finish.js";
import { looksOf } from "trimwright/read/looks.js";
import { address, savedWhenMade } from "trimwright-app/asking.js";
import { download } from "trimwright-app/file_sheet.js";
import { fieldOf, valueOf } from "trimwright-app/told_fields.js";

export function sellSheet(workspace) {
  const { state, roof } = workspace;
  const page = make("div", { class: "tw-way-two" },
    savedWhenMade(workspace,
      download(address(workspace, "customer"), say("Customer's page"),
        say("one file for any telephone or computer: the finished roof in its looks, nothing of the workshop"))),
    make("a", { class: "tw-chip tw-as-button", href: address(workspace, "customer?shown"), target: "_blank", rel: "noopener",
      text: say("Show it") }));
  return { title: say("Sell this roof"), shown: () => showFinished(roof.app.view), el: make("div", {},
    make("ol", { class: "tw-rows tw-ways" },
      way(say("The house"), houseSaid(state), () => workspace.revealPart("roof")),
      way(say("Doors, windows, siding, gutters"), say("as the pictures show them"), () => workspace.revealPart("house")),
      way(say("Panels"), panelsSaid(state), () => workspace.revealPart("panels")),
      way(say("Metal, colors and looks"), looksSaid(roof.app), () => roof.open("finish", undefined, { focus: true })),
      way(say("The customer's own photograph"), valueOf(state, "photo", "file") || say("none yet"), () => workspace.open("photo")),
      way(say("Offer"), valueOf(state, "shop", "prices") || say("no price list yet"), () => workspace.open("offer")),
      make("li", {}, state.current ? page
        : make("p", { class: "tw-flag", text: say("Something in the form cannot be read. Put it right, then the page can be had.") }))),
    make("p", { class: "tw-quiet",
      text: say("At the table: the button with four corners shows the house alone; Page Up and Page Down go from look to look.") })) };
}

function way(text, says, act) {
  const one = button("", act, { class: "tw-row" });
  one.append(make("span", { class: "tw-row-text" }, make("b", { text }), make("span", { class: "tw-quiet", text: says })));
  return make("li", {}, one);
}

// The form and the sizes of the house, as they are written.
function houseSaid(state) {
  const form = fieldOf(state, "roof", "form"), named = form?.choices.find(([name]) => name === form.value)?.[1] ?? "";
  const pitch = valueOf(state, "roof", "pitch"), sizes = state.outline ? spread(state.outline)
    : ["length", "width"].map((name) => valueOf(state, "roof", name));
  return [named, sizes.filter(Boolean).join(" x "), pitch].filter(Boolean).join(", ");
}

// How long and how wide an outline is, over all.
function spread({ rings: [corners], tape }) {
  if (!corners) return [];
  const length = lengthWriter(tape);
  return [0, 1].map((axis) => corners.map((corner) => corner[axis])).map((all) => length(Math.max(...all) - Math.min(...all)));
}

// Which panels, as they are chosen or are usual, and how wide.
function panelsSaid(state) {
  const profile = fieldOf(state, "panels", "profile"), cover = fieldOf(state, "panels", "cover");
  const chosen = profile?.value || profile?.blank;
  return [profile?.choices.find(([name]) => name === chosen)?.[1] ?? chosen, cover?.value || cover?.blank].filter(Boolean).join(", ");
}

const looksSaid = (app) =>
  looksOf(app).map(({ name }, i) => say("{letter}  {name}", { letter: String.fromCharCode(65 + i), name })).join(", ");
