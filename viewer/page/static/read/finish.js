// The sheet of finishes: metals and paints for trim, panels and walls, where the sun stands, two finishes side by side.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { sunBlock } from "trimwright/read/sun.js";

const PARTS = { trim: () => say("Trim"), panels: () => say("Panels"), walls: () => say("Walls") };
let second = false; // which of two finishes the colors go to

export function finishSheet(app) {
  const { view } = app;
  const el = make("div", {});
  const show = () => {
    const blocks = Object.keys(PARTS).map((part) => colorBlock(app, part, show));
    const own = button(say("Back to the roof's own finish"), () => takeOwn(app, show), { class: "tw-plain" });
    el.replaceChildren(pairBlock(view, show), ...blocks, sunBlock(app), own);
  };
  show();
  return { title: say("Finish"), el, shown: () => shown(view) };
}

// The finish is that of the whole roof, in its own colors.
function shown({ arrangement, looks, viewpoints }) {
  if (looks.apart) arrangement.tellApart(false);
  viewpoints.fit();
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
    painter.other && make("div", { class: "tw-chips", role: "group", "aria-label": say("Colors go to") }, choose(false, say("First")), choose(true, say("Second"))));
}

function colorBlock(app, part, show) {
  const { view, data: { finish: { paints, metals, ...own } } } = app;
  const bareKey = `${part}Bare`, look = current(view), text = PARTS[part]();
  const ours = { name: say("the roof's own"), color: own[part] };
  const named = [ours, ...paints, ...metals].find((one) => one.color === look[part]);
  const chip = ({ name, color }, bare) => button("", () => (change(view, { [part]: color, [bareKey]: bare }), show()), {
    class: `tw-color${bare ? " tw-bare" : ""}`, style: `--color:${color}`, title: name,
    "aria-label": say("{part}: {color}", { part: text, color: name }),
    "aria-pressed": String(look[part] === color && Boolean(look[bareKey]) === bare),
  });
  const free = make("input", {
    type: "color", value: look[part], title: say("a color of your own"), "aria-label": say("{part}: a color of your own", { part: text }),
    oninput: (event) => change(view, { [part]: event.target.value, [bareKey]: false }), onchange: show,
  });
  return make("div", { class: "tw-block tw-colors", "data-part": part },
    make("h3", {}, text, " ", make("span", { class: "tw-quiet", text: named?.name ?? look[part] })),
    make("div", { class: "tw-swatches" }, chip(ours, Boolean(own[bareKey])), paints.map((one) => chip(one, false)), free),
    part !== "walls" && make("div", { class: "tw-swatches" }, metals.map((one) => chip(one, true))));
}
