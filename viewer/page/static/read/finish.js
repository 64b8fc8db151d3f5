// The sheet of finishes: metals and paints for trim, panels and walls, where the sun stands, two finishes side by side.

import { button, make } from "trimwright/common/elements.js";

const PARTS = [["trim", "Trim"], ["panels", "Panels"], ["walls", "Walls"]];
const SIDES = ["back", "back right", "right", "front right", "front", "front left", "left", "back left"];
let second = false; // which of two finishes the colors go to

export function finishSheet(app) {
  const { view } = app;
  const current = () => (second && view.painter.other ? view.painter.other : view.looks.look);
  const change = (look) => (second && view.painter.other ? view.painter.compareWith({ ...view.painter.other, ...look }) : view.setLook(look));
  const el = make("div", {});
  const show = () => {
    const look = current();
    el.replaceChildren(pairBlock(), ...PARTS.map(([part, name]) => colorBlock(part, name, look)), sunBlock(app),
      button("Back to the scene's own finish", () => (view.painter.compareWith(null), (second = false), view.setLook(app.data.finish), show()), { class: "tw-plain" }));
  };

  function pairBlock() {
    const two = make("input", { type: "checkbox", checked: Boolean(view.painter.other), onchange: (event) => (view.painter.compareWith(event.target.checked ? { ...view.looks.look } : null), (second = event.target.checked), show()) });
    const which = (is, text) => button(text, () => ((second = is), show()), { class: "tw-chip", "aria-pressed": String(second === is) });
    return make("div", { class: "tw-block" }, make("label", { class: "tw-check" }, two, make("span", { text: "Two finishes side by side" })),
      view.painter.other ? make("div", { class: "tw-chips", role: "group", "aria-label": "Colors go to" }, which(false, "First"), which(true, "Second")) : null);
  }

  function colorBlock(part, name, look) {
    const bareKey = `${part}Bare`, { paints, metals } = app.data.finish;
    const chip = ({ name: text, color }, bare) => button("", () => (change({ [part]: color, [bareKey]: bare }), show()), {
      class: `tw-color${bare ? " tw-bare" : ""}`, style: `--color:${color}`, "aria-label": `${name}: ${text}`, title: text, "aria-pressed": String(look[part] === color && Boolean(look[bareKey]) === bare),
    });
    const own = make("input", { type: "color", value: look[part], "aria-label": `${name}: a color of your own`, title: "a color of your own", oninput: (event) => change({ [part]: event.target.value, [bareKey]: false }), onchange: show });
    const ours = { name: "the scene's own", color: app.data.finish[part] };
    const named = [ours, ...paints, ...metals].find((one) => one.color === look[part]);
    return make("div", { class: "tw-block tw-colors", "data-part": part }, make("h3", {}, `${name} `, make("span", { class: "tw-quiet", text: named ? named.name : look[part] })),
      make("div", { class: "tw-swatches" }, chip(ours, Boolean(app.data.finish[bareKey])), paints.map((one) => chip(one, false)), own),
      part === "walls" ? null : make("div", { class: "tw-swatches" }, metals.map((one) => chip(one, true))));
  }

  show();
  return { title: "Finish", el, shown: () => view.looks.apart && view.arrangement.tellApart(false) };
}

function sunBlock(app) {
  const { sky } = app.view;
  const from = make("input", { type: "range", min: 0, max: 345, step: 15, value: sky.from, oninput: change });
  const height = make("input", { type: "range", min: 8, max: 80, value: sky.height, oninput: change });
  const says = make("span", { class: "tw-quiet" });
  function change() {
    app.view.setSun(Number(from.value), Number(height.value));
    words();
  }
  function words() {
    const side = SIDES[Math.round(from.value / 45) % 8];
    const north = app.data.sun;
    const compass = north === null ? "" : `, ${["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"][(((Math.round((from.value - north) / 45) % 8) + 8) % 8)]}`;
    says.textContent = `from the ${side}${compass}, ${height.value}° high`;
    from.setAttribute("aria-valuetext", says.textContent);
    height.setAttribute("aria-valuetext", says.textContent);
  }
  words();
  return make("div", { class: "tw-block" }, make("h3", {}, "Sun ", says),
    make("label", { class: "tw-slide" }, make("span", { text: "Round the house" }), from),
    make("label", { class: "tw-slide" }, make("span", { text: "Height" }), height));
}
