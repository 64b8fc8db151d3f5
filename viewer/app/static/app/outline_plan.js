// The plan of an outline, to scale: walls, the roof over them as it was built last, which sides are gables, and where
// something is wrong. Seen from above, the front below.

import { draw } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

export const WIDTH = 340;
const TALLEST = 300, LOWEST = 170, MARGIN = 46; // pixels
const ROOM = 46; // pixels that a side is long on which its length is written
const SIGN = 9; // pixels from a wall to the sign of a gable

// The sides of all rings, numbered on: {number, ring, k, from, to, long}.
export function sidesOf(rings) {
  let number = 0;
  return rings.flatMap((ring, r) => ring.map((from, k) => {
    const to = ring[(k + 1) % ring.length];
    return { number: ++number, ring: r, k, from, to, long: Math.hypot(to[0] - from[0], to[1] - from[1]) };
  }));
}

export class OutlinePlan {
  constructor() {
    this.el = draw("svg", { class: "tw-plan", role: "img" });
    this.el.setAttribute("viewBox", `0 0 ${WIDTH} ${LOWEST}`);
  }

  // Fits the plan into the picture; what is dragged keeps the scale.
  fit(rings) {
    const points = rings.flat();
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const scale = Math.min((WIDTH - 2 * MARGIN) / Math.max(right - left, 12), (TALLEST - 2 * MARGIN) / Math.max(high - low, 12));
    this.tall = Math.max(LOWEST, (high - low) * scale + 2 * MARGIN);
    const [dx, dy] = [(WIDTH - (right - left) * scale) / 2 - left * scale, (this.tall - (high - low) * scale) / 2 + high * scale];
    Object.assign(this,
      { scale, put: ([x, y]) => [x * scale + dx, dy - y * scale], back: ([x, y]) => [(x - dx) / scale, (dy - y) / scale] });
    this.el.setAttribute("viewBox", `0 0 ${WIDTH} ${this.tall.toFixed(0)}`);
  }

  // What of the roof is drawn belongs to another outline while a corner is dragged, and is left out.
  draw({ rings, told, chosen, pointed, length, dragged, guides = [] }) {
    const { gables, wrong, current } = told, built = dragged || !current ? [] : told.edges;
    if (!rings.flat().length) return this.el.replaceChildren();
    if (!dragged) this.fit(rings);
    const { put } = this, sides = sidesOf(rings);
    const lit = [pointed, chosen.side].filter(Boolean);
    this.el.setAttribute("aria-label", nameOf(sides, gables));
    this.el.replaceChildren(
      draw("path", { class: "p-floor", "fill-rule": "evenodd", d: rings.map((ring) => line(ring.map(put), true)).join("") }),
      ...built.map(({ kind, plan }) => draw("path", { class: `p-edge p-${kind}`, d: line(plan.map(put)) })),
      ...guides.map((points) => draw("path", { class: "p-guide", d: line(points.map(put)) })),
      ...sides.map((side) =>
        wall(side, put,
          { gable: gables.includes(side.number), lit: lit.includes(side.number), wrong: wrong.some((one) => one.side === side.number) })),
      ...lengths(sides, this, length, (side) => lit.includes(side.number) || touches(side, dragged)),
      ...rings.flatMap((ring, r) =>
        ring.map((corner, k) =>
          handle(put(corner), String(chosen.corner) === String([r, k]), wrong.some((one) => String(one.corner) === String([r, k]))))),
      ...wrong.filter(({ at }) => at).map(({ at }) => crossHere(put(at))));
  }
}

const touches = ({ ring, k, number }, dragged) => Boolean(dragged)
  && (dragged.side === number || dragged.corners?.some(([r, i, next]) => r === ring && (i === k || next === k)));

function wall({ from, to }, put, { gable, lit, wrong }) {
  const [a, b] = [put(from), put(to)];
  const way = line([a, b]);
  const look = `${gable ? "p-is-gable" : "p-is-eave"}${lit ? " tw-lit" : ""}${wrong ? " tw-is-wrong" : ""}`;
  return draw("g", { class: look },
    lit && draw("path", { class: "p-glow", d: way }),
    draw("path", { class: "p-wall", d: way }),
    gable && draw("path", { class: "p-sign", d: sign(a, b) }),
    draw("path", { class: "p-hit", d: way }));
}

// A gable stands up over its side.
function sign(a, b) {
  const { middle: [x, y], along: [ux, uy], out: [ox, oy] } = frameOf(a, b);
  const spot = (u, o) => [x + ux * u + ox * o, y + uy * u + oy * o];
  return line([spot(-SIGN, -3), spot(0, -SIGN - 3), spot(SIGN, -3)], true);
}

// On the picture, where y goes down, the outside of a counter-clockwise outline is to the right of its sides.
function frameOf([ax, ay], [bx, by]) {
  const long = Math.hypot(bx - ax, by - ay) || 1, along = [(bx - ax) / long, (by - ay) / long];
  return { middle: [(ax + bx) / 2, (ay + by) / 2], along, out: [-along[1], along[0]], long };
}

// The lengths of sides, outside of them or, where others stand there, inside; of a short one only where it is wanted.
function lengths(sides, { put, tall }, length, wanted) {
  const taken = [], first = [...sides].sort((one, other) => wanted(other) - wanted(one));
  return first.flatMap((side) => {
    const { middle: [x, y], out: [ox, oy], long: wide, along } = frameOf(put(side.from), put(side.to));
    const text = length(side.long), half = text.length * 3.3, steep = Math.abs(along[1]) > 0.5;
    if (wide < (steep ? 18 : ROOM) && !wanted(side)) return [];
    const boxes = [17, -17].map((off) => {
      const middle = [x + ox * (off + (steep ? Math.sign(off) * half : 0) - (steep ? Math.sign(off) * 8 : 0)), y + oy * off];
      return [Math.min(Math.max(middle[0], half + 2), WIDTH - half - 2), Math.min(Math.max(middle[1], 8), tall - 8), half];
    });
    const spot = boxes.find((box) =>
      taken.every((other) => Math.abs(other[0] - box[0]) > other[2] + box[2] + 3 || Math.abs(other[1] - box[1]) > 14));
    if (!spot && !wanted(side)) return [];
    const at = spot ?? boxes[0];
    taken.push(at);
    return [draw("text",
      { class: `p-length${wanted(side) ? " tw-lit" : ""}`, x: at[0].toFixed(1), y: (at[1] + 4).toFixed(1), "text-anchor": "middle",
        text })];
  });
}

function handle([x, y], chosen, wrong) {
  const r = chosen ? 8 : 5.5;
  return draw("g", { class: `p-corner${chosen ? " tw-lit" : ""}${wrong ? " tw-is-wrong" : ""}` },
    draw("rect", { x: x - r, y: y - r, width: 2 * r, height: 2 * r }),
    draw("circle", { class: "p-hit", cx: x, cy: y, r: 20 }));
}

const crossHere = ([x, y]) =>
  draw("path", { class: "p-wrong", d: `M${x - 9} ${y - 9}L${x + 9} ${y + 9}M${x + 9} ${y - 9}L${x - 9} ${y + 9}` });

const nameOf = (sides, gables) =>
  say("Plan of the house from above: {count} sides, {gables} of them gables. Every side and corner can also be reached by the buttons and fields below.", { count: sides.length, gables: gables.length });

const line = (points, close) => `M${points.map((point) => point.map((n) => n.toFixed(1)).join(" ")).join("L")}${close ? "Z" : ""}`;
