// The sheet of finishes: metals and paints for trim, panels and walls, where the sun stands, two finishes side by side.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { keepBlock, looksBlock } from "trimwright/read/looks.js";
import { sunBlock } from "trimwright/read/sun.js";
import { seesAll } from "trimwright/seen/flight.js";

const PARTS = { trim: () => say("Trim"), panels: () => say("Panels"), walls: () => say("Walls") };
let second = false; // which of two finishes the colors go to

export function finishSheet(app) {
  const { view } = app;
  const el = make("div", {});
  const show = () => {
    const blocks = Object.keys(PARTS).map((part) => colorBlock(app, part, show));
    const own = button(say("Back to the roof's own finish"), () => takeOwn(app, show), { class: "tw-plain" });
    el.replaceChildren(...[looksBlock(app), pairBlock(view, show), ...blocks, sunBlock(app), own, keepBlock(app)].filter(Boolean));
  };
  show();
  return { title: say("Finish"), el, shown: () => showFinished(view) };
}

// The finish is that of the whole house, in its own colors: nothing is picked out, and who stood close by goes back to the
// street.
export function showFinished({ arrangement, box, camera, data, looks, overlay, viewpoints }) {
  if (looks.apart) arrangement.tellApart(false);
  overlay.clear("work");
  arrangement.select(null);
  if (!seesAll(camera, box)) viewpoints.standAt(data.views[0].name);
}

function takeOwn({ view, data }, show) {
  second = false;
  view.painter.compareWith(null);
  view.setLook(data.finish);
  show();
}

// The finish that the colors go to, and what changes it.
const current = ({ painter, looks }) => (second && painter.other ? painter.other : looks.look);

function change(view, look) {
  if (second && view.painter.other) view.painter.compareWith({ ...view.painter.other, ...look });
  else view.setLook(look);
}

function pairBlock({ painter, looks }, show) {
  const compare = ({ target: { checked } }) => {
    painter.compareWith(checked ? { ...looks.look } : null);
    second = checked;
    show();
  };
  const choose = (is, text) => button(text, () => ((second = is), show()), { class: "tw-chip", "aria-pressed": String(second === is) });
  const check = make("input", { type: "checkbox", checked: Boolean(painter.other), onchange: compare });
  return make("div", { class: "tw-block" },
    make("label", { class: "tw-check" }, check, make("span", { text: say("Two finishes side by side") })),
    painter.other
      && make("div", { class: "tw-chips", role: "group", "aria-label": say("Colors go to") }, choose(false, say("First")),
        choose(true, say("Second"))));
}

function colorBlock(app, part, show) {
  const { view, data: { finish: { paints, metals, ...own } } } = app;
  const look = current(view), text = PARTS[part]();
  const ours = { name: say("the roof's own"), ...coatOf(own[part]) }, now = coatOf(look[part]);
  const named = [ours, ...paints, ...metals].find((one) => alike(one, now));
  const chip = ({ name, ...coat }) => button("", () => (change(view, { [part]: part === "walls" ? coat.color : coat }), show()), {
    class: `tw-color${coat.bare ? " tw-bare" : ""}`, style: `--color:${coat.color}`, title: name,
    "aria-label": say("{part}: {color}", { part: text, color: name }),
    "aria-pressed": String(alike(coat, now)),
  });
  const free = make("input", {
    type: "color", value: now.color, title: say("a color of your own"), "aria-label": say("{part}: a color of your own", { part: text }),
    oninput: (event) => change(view, { [part]: part === "walls" ? event.target.value : { ...paints[0], color: event.target.value } }),
    onchange: show,
  });
  return make("div", { class: "tw-block tw-colors", "data-part": part },
    make("h3", {}, text, " ", make("span", { class: "tw-quiet", text: named?.name ?? now.color })),
    make("div", { class: "tw-swatches" }, chip(ours), paints.map(chip), free),
    part !== "walls" && make("div", { class: "tw-swatches" }, metals.map(chip)));
}

// Walls have a color only.
const coatOf = (finish) => (typeof finish === "string" ? { color: finish, bare: false } : finish);

const alike = (one, other) => one.color === other.color && one.bare === other.bare;
