// Cutting through the roof at a tapped place: which layer lies over which, drawn as thick as it is or thicker.

import { THREE } from "nicegui-scene";
import { button, draw, make } from "trimwright/common/elements.js";
import { banded, outlines, slices } from "trimwright/seen/slice.js";

const WIDTH = 344, TALL = 250, MARGIN = 1.25;
const THICKER = 5;

export function cutTool(app) {
  let done;
  return {
    start(end) {
      done = end;
      app.ask("Cut through: tap where to cut", done);
    },
    stop: () => app.ask(null),
    tap({ hit }) {
      const found = hit();
      const cut = found && cutAt(app, found);
      if (!cut) return app.ask("No metal near there: tap on trim or on a panel", done);
      done();
      showCut(app, cut);
    },
  };
}

// The cut square across the trim nearest to a point, with everything that it goes through nearby.
function cutAt(app, { point }) {
  const { view } = app;
  let piece = null, nearest = 0.45;
  for (const one of view.pieces.values()) {
    if (!one.body.visible) continue;
    const far = new THREE.Box3().setFromObject(one.body).distanceToPoint(point);
    if (far < nearest) [piece, nearest] = [one, far];
  }
  if (!piece) return null;
  const normal = new THREE.Vector3(...piece.along);
  const up = new THREE.Vector3(0, 1, 0).addScaledVector(normal, -normal.y).normalize();
  const out = new THREE.Vector3().crossVectors(up, normal);
  if (out.dot(new THREE.Vector3(...piece.facing)) < 0) out.negate();
  return { piece, point, frame: { normal, up, out }, layers: slices(view, point, { normal, up, out }) };
}

function showCut(app, cut) {
  let factor = 1;
  const el = make("div", {});
  const show = () => {
    const thicker = factor > 1;
    el.replaceChildren(
      drawing(app, cut, factor),
      make("p", { class: thicker ? "tw-flag" : "tw-quiet", text: thicker ? `Metal is drawn ${THICKER} times as thick as it is, and layers are moved apart for it: not to scale.` : "To scale, as thick as the metal is." }),
      make("div", { class: "tw-pair" }, button(thicker ? "As thick as it is" : `Metal ${THICKER} times as thick`, () => ((factor = thicker ? 1 : THICKER), show()), { class: "tw-main" })),
      legend(app, cut));
  };
  show();
  app.put("cut", () => ({ title: `Cut through ${cut.piece.mark}`, el }));
  const names = metalOf(cut).map(({ name }) => name);
  app.say(`Cut through ${names.join(", ")}, the lowest first`);
}

const metalOf = (cut) => cut.layers.filter(({ kind }) => kind === "trim");

function drawing(app, cut, factor) {
  const box = new THREE.Box2();
  for (const { name, parts } of cut.layers) if (name === cut.piece.mark) for (const { a, b } of parts) box.expandByPoint(a).expandByPoint(b);
  if (box.isEmpty()) box.setFromCenterAndSize(new THREE.Vector2(), new THREE.Vector2(6, 6));
  box.expandByScalar(MARGIN);
  const size = box.getSize(new THREE.Vector2());
  const scale = Math.min(WIDTH / size.x, TALL / size.y);
  const tall = size.y * scale, left = (WIDTH - size.x * scale) / 2;
  const put = (p) => `${(left + (p.x - box.min.x) * scale).toFixed(2)} ${(tall - (p.y - box.min.y) * scale).toFixed(2)}`;
  const svg = draw("svg", { viewBox: `0 0 ${WIDTH} ${Math.ceil(tall)}`, class: "tw-drawing tw-cut", role: "img", "aria-label": `Cut through ${cut.layers.map(({ kind, name }) => (kind === "trim" ? name : kind)).join(", ")}` });
  const extra = (factor - 1) * cut.piece.thickness;
  const trims = metalOf(cut), fills = app.data.apart.layers;
  for (const layer of cut.layers) {
    const rank = trims.indexOf(layer);
    const lifted = layer.kind === "pan" ? trims.length * extra : 0;
    const loops = rank >= 0 && factor > 1 ? banded(layer, cut.piece.thickness, rank * extra, (rank + 1) * extra) : outlines(layer);
    const d = loops.map((loop) => `M${loop.map((p) => put(lifted ? { x: p.x, y: p.y + lifted } : p)).join("L")}Z`).join("");
    const fill = rank >= 0 ? fills[rank % fills.length] : null;
    svg.append(draw("path", { d, class: `c-${layer.kind}`, "fill-rule": "evenodd", style: fill ? `fill:${fill};stroke:${fill}` : null }));
  }
  return svg;
}

// The layers in words, the topmost first, as they are seen when the roof is opened from above.
function legend(app, cut) {
  const trims = metalOf(cut), fills = app.data.apart.layers;
  const rows = [...trims].reverse().map((layer) => {
    const rank = trims.indexOf(layer);
    const piece = app.view.pieces.get(layer.name);
    const over = piece.under.filter((mark) => trims.some(({ name }) => name === mark));
    return make("li", {}, make("span", { class: "tw-dot", style: `--color:${fills[rank % fills.length]}` }), make("b", { text: layer.name }), ` ${piece.run}${over.length ? `, over ${over.join(", ")}` : ""}`);
  });
  if (cut.layers.some(({ kind }) => kind === "pan")) rows.push(make("li", {}, make("span", { class: "tw-dot tw-dot-pan" }), "panel, with its turned edge"));
  if (cut.layers.some(({ kind }) => kind === "deck")) rows.push(make("li", {}, make("span", { class: "tw-dot tw-dot-deck" }), "deck and boards"));
  return make("ul", { class: "tw-layers" }, rows);
}
