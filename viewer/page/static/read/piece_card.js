// The card of a piece: what it is, its tape, and the work at each end, one step at a time. Made for one thumb.

import { button, make } from "trimwright/common/elements.js";
import { iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";
import { endPage } from "trimwright/read/end_page.js";
import { pieceFacts } from "trimwright/read/piece_facts.js";
import { tag } from "trimwright/read/tag.js";
import { tapeMarks } from "trimwright/read/tape_marks.js";

const TABS = {
  facts: [() => say("Piece"), pieceFacts],
  tape: [() => say("Tape"), tapeMarks],
  low: [() => say("Low end"), (app, piece) => endPage(app, piece, "low")],
  high: [() => say("High end"), (app, piece) => endPage(app, piece, "high")],
};
const NAMES = Object.keys(TABS);
let tab = "facts"; // stays from card to card: who works along a run reads the same thing of every piece

export function cardSheet(app, mark) {
  const piece = app.view.pieces.get(mark);
  if (!piece.ends) return { title: mark, part: "pieces",
    el: make("p", { class: "tw-quiet", text: say("This piece is being worked out.") }) };
  const body = make("div", { class: "tw-card-body", role: "tabpanel", "aria-label": mark });
  const tabs = make("div", { class: "tw-tabs", role: "tablist", "aria-label": say("About {mark}", { mark }) });
  const open = (name) => {
    tab = name;
    for (const one of tabs.children) {
      const on = one.dataset.tab === name;
      one.setAttribute("aria-selected", String(on));
      one.tabIndex = on ? 0 : -1;
    }
    app.host.classList.toggle("tw-tall", atEnd(name));
    app.view.overlay.clear("work");
    body.replaceChildren(...[TABS[name][1](app, piece)].flat());
  };
  for (const name of NAMES) tabs.append(button(TABS[name][0](), () => open(name), { role: "tab", "data-tab": name }));
  tabs.addEventListener("keydown", (event) => {
    const way = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!way) return;
    const next = NAMES[(NAMES.indexOf(tab) + way + NAMES.length) % NAMES.length];
    open(next);
    [...tabs.children].find((one) => one.dataset.tab === next).focus();
  });
  open(tab);
  const told = { mark, run: piece.called, length: piece.says };
  app.tell(piece.short ? say("{mark}, {run}, {length}, short piece", told) : say("{mark}, {run}, {length}", told));
  return { title: titleOf(app, piece), part: "pieces", el: make("div", { class: "tw-card" }, body, tabs), leave: () => leave(app) };
}

// Opens the card of a piece and looks at it; a card that opens on one of its ends looks there by itself.
export function visit(app, mark, options) {
  if (!atEnd(tab)) app.view.viewpoints.lookAt(mark);
  app.choose(mark, options);
}

const atEnd = (name) => name === "low" || name === "high";

function leave(app) {
  app.host.classList.remove("tw-tall");
  app.view.overlay.clear("work");
}

function titleOf(app, piece) {
  const { pieces } = app.data;
  const at = pieces.findIndex((one) => one.mark === piece.mark);
  const beside = (picture, way, text) =>
    iconButton(picture, text, () => visit(app, pieces[at + way].mark), { disabled: !pieces[at + way] });
  const name = make("span", { class: "tw-card-name" },
    make("span", { class: "tw-card-run", text: piece.called }),
    make("span", { class: "tw-card-length tw-figure", text: piece.says }));
  return [tag(piece, true), name, beside("left", -1, say("The piece before")), beside("right", 1, say("The next piece"))];
}
