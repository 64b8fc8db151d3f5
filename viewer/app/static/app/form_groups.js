// Groups of fields that are laid out in a way of their own: corners, porches, doors and
// windows, and what was taped on the roof.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

export const plainGroup = (form, fields) => make("div", { class: "tw-fields tw-group" }, fields.map((one) => form.field(one)));

const awayButton = (title, act) =>
  button(say("Take away"), act, { class: "tw-chip", "aria-label": say("Take away: {corner}", { corner: title }) });

// A porch, a door or a window: its fields, and a way to take it away.
const partRow = (form, { title, fields }, away) => make("div", { class: "tw-part" },
  make("div", { class: "tw-row-head" }, make("b", { text: title }), awayButton(title, away)),
  plainGroup(form, fields));

// A corner: how far it is from the left and from the front, and ways to take it away or to put another after it.
export function cornerRow(form, { name, title, fields }) {
  const [ring, corner] = name.split(".").slice(1).map(Number), { outline } = form;
  return make("div", { class: "tw-corner-row", role: "group", "aria-label": title },
    make("b", { text: title }),
    make("div", { class: "tw-corner-at", onfocusin: () => outline.chosen.corner?.join() !== `${ring},${corner}`
      && outline.choose({ corner: [ring, corner] }) }, fields.map((one) => form.field(one))),
    make("div", { class: "tw-chips" },
      button(say("Corner after it"), () =>
        outline.edit({ what: "add", side: sideOf(outline, ring, corner) }, { corner: [ring, corner + 1] }), { class: "tw-chip" }),
      awayButton(title, () => outline.takeAway([ring, corner]))));
}

// The number of the side that begins at a corner.
const sideOf = ({ rings }, ring, corner) => rings.slice(0, ring).reduce((sum, { length }) => sum + length, 0) + corner + 1;

export function porchBox(form, sections, outlined) {
  const rows = sections.map((section, number) => partRow(form, section, () => form.edit({ what: "unporch", porch: number })));
  const put = () => {
    form.added = "porches";
    form.edit({ what: "porch", side: outlined ? form.outline.eaveChosen() : 1 });
  };
  return make("div", {},
    make("p", { class: "tw-quiet", text: say("The slope over a side carried down past its eave, to a lower one.") }),
    rows,
    make("div", { class: "tw-chips" }, button(say("Add a porch"), put, { class: "tw-chip" })));
}

// Doors and windows, each with its fields.
export function openingRows(form, sections) {
  const rows = sections.map((section, number) => partRow(form, section, () => form.open({ away: number })));
  const add = (kind, text) => button(text, () => ((form.added = "house"), form.open({ kind })), { class: "tw-chip" });
  return make("div", {}, rows,
    make("div", { class: "tw-chips" }, add("door", say("Put a door in")), add("window", say("Put a window in"))),
    make("p", { class: "tw-hint",
      text: say("A door of your own takes the place of the automatic one, a window that of the automatic windows of its wall.") }));
}

// What was taped, face by face in walking order: each size with what the plan has, and how its tape agrees.
export function tapedBox(form, sections, key) {
  const says = make("div", { class: "tw-survey-says", "aria-live": "polite" });
  form.surveyed = (sentences) => says.replaceChildren(...sentences.map((text) => make("p", { text })));
  const [errors, ...faces] = sections;
  return make("div", {},
    make("p", { class: "tw-quiet",
      text: say("The form gives the shape, the tape the true sizes. Write what was read on the deck, overhangs included; leave empty what was not taped. Gray is what the plan has.") }),
    make("a", { class: "tw-chip tw-as-button", href: `/workspace/${key}/file/what-to-tape.pdf`, download: "",
      text: say("The same to fill in on the roof, as a PDF") }),
    faces.map(({ title, fields }) => make("div", { class: "tw-block" }, make("h3", { text: title }), plainGroup(form, fields))),
    says,
    errors && make("div", { class: "tw-block" }, make("h3", { text: say("How sure it is") }), plainGroup(form, errors.fields)));
}
