// A cut through the roof: which layer lies over which, drawn as thick as it is or thicker.

import { THREE } from "nicegui-scene";
import { button, draw, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { banded, outlines } from "trimwright/seen/slice.js";

const WIDTH = 344, TALL = 250, MARGIN = 1.25;
const THICKER = 5;
const OTHERS = { pan: () => say("Panel, with its turned edge"), deck: () => say("Deck and boards") };

// cut: {piece: that it goes square across, layers: what slices() finds}
export function cutSheet(app, cut) {
  const el = make("div", {});
  const show = (factor) => {
    const thicker = factor > 1;
    const says = thicker
      ? say("Metal is drawn {times} times as thick as it is, and layers are moved apart for it: not to scale.", { times: THICKER })
      : say("To scale, as thick as the metal is.");
    const other = thicker ? say("As thick as it is") : say("Metal {times} times as thick", { times: THICKER });
    el.replaceChildren(
      drawing(app, cut, factor),
      make("p", { class: thicker ? "tw-flag" : "tw-quiet", text: says }),
      make("div", { class: "tw-pair" }, button(other, () => show(thicker ? 1 : THICKER), { class: "tw-main" })),
      legend(app, cut));
  };
  show(1);
  app.tell(say("Cut through {marks}, the lowest first", { marks: metalOf(cut).map(({ name }) => name).join(", ") }));
  return { title: say("Cut through {mark}", { mark: cut.piece.mark }), el };
}

const metalOf = (cut) => cut.layers.filter(({ kind }) => kind === "trim");

function drawing(app, cut, factor) {
  const box = frameOf(cut), size = box.getSize(new THREE.Vector2());
  const scale = Math.min(WIDTH / size.x, TALL / size.y);
  const tall = size.y * scale, left = (WIDTH - size.x * scale) / 2;
  const put = (p) => `${(left + (p.x - box.min.x) * scale).toFixed(2)} ${(tall - (p.y - box.min.y) * scale).toFixed(2)}`;
  const trims = metalOf(cut), { thickness } = cut.piece;
  const extra = (factor - 1) * thickness; // that a sheet is drawn thicker
  const paths = cut.layers.map((layer) => {
    const rank = trims.indexOf(layer);
    const lifted = layer.kind === "pan" ? trims.length * extra : 0;
    const loops = rank >= 0 && factor > 1 ? banded(layer, thickness, rank * extra, (rank + 1) * extra) : outlines(layer);
    const d = loops.map((loop) => `M${loop.map((p) => put({ x: p.x, y: p.y + lifted })).join("L")}Z`).join("");
    const fill = rank >= 0 ? fillOf(app, rank) : null;
    return draw("path", { d, class: `c-${layer.kind}`, "fill-rule": "evenodd", style: fill ? `fill:${fill};stroke:${fill}` : null });
  });
  const name = say("Cut through {marks}", { marks: trims.map((layer) => layer.name).join(", ") });
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${Math.ceil(tall)}`, class: "tw-drawing tw-cut", role: "img", "aria-label": name }, ...paths);
}

// The part of the cut that is drawn: all of the piece that it goes across, and a margin.
function frameOf(cut) {
  const box = new THREE.Box2();
  for (const { name, parts } of cut.layers) {
    if (name === cut.piece.mark) for (const { a, b } of parts) box.expandByPoint(a).expandByPoint(b);
  }
  if (box.isEmpty()) box.setFromCenterAndSize(new THREE.Vector2(), new THREE.Vector2(6, 6));
  return box.expandByScalar(MARGIN);
}

// The layers in words, the topmost first, as they are seen when the roof is opened from above.
function legend(app, cut) {
  const trims = metalOf(cut), marks = trims.map(({ name }) => name);
  const rows = trims.map(({ name }, rank) => {
    const { called: run, under } = app.view.pieces.get(name);
    const over = under.filter((mark) => marks.includes(mark)).join(", ");
    const text = over ? say("{run}, over {marks}", { run, marks: over }) : run;
    return make("li", {}, make("span", { class: "tw-dot", style: `--color:${fillOf(app, rank)}` }), make("b", { text: name }), " ", text);
  });
  const others = Object.keys(OTHERS).filter((kind) => cut.layers.some((layer) => layer.kind === kind));
  const below = others.map((kind) => make("li", {}, make("span", { class: `tw-dot tw-dot-${kind}` }), OTHERS[kind]()));
  return make("ul", { class: "tw-layers" }, rows.reverse(), below);
}

const fillOf = ({ data: { apart: { layers } } }, rank) => layers[rank % layers.length];
