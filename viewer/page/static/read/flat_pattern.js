// Flat patterns: the sheet before it is folded, painted side up. The low end of a right-hand piece is on the right.

import { crossed } from "trimwright/common/crossed.js";
import { draw } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const WIDTH = 344, TALLEST = 200;
const LETTER = 7.2; // pixels that a letter of it takes at most, on average
const NEAREST = 9; // pixels that a leg must be wide to be named
const ENDS = { low: () => say("low end"), high: () => say("high end") };

// The whole piece, to scale.
export function wholeDrawing(app, piece) {
  const { mark, says, mirrored, length, flat: { width, outline, bends }, screws } = piece;
  const scale = Math.min((WIDTH - 8) / length, 120 / width);
  const long = length * scale, tall = width * scale;
  const put = ([u, v]) => [4 + (mirrored ? length - u : u) * scale, 4 + v * scale];
  const [left, right] = (mirrored ? ["high", "low"] : ["low", "high"]).map((end) => ENDS[end]());
  const name = say("Flat pattern of {mark}, {length} long and {width} wide", { mark, length: says, width: app.length(width) });
  const room = LETTER * (left.length + right.length) + 12;
  return picture(tall + 24, name,
    draw("path", { d: line(outline.map(put), true), class: "d-sheet" }),
    ...bends.map((bend) => bendLine(bend, put)),
    ...screws.map((at) => spot(put(at), 1.6)),
    draw("text", { x: 4, y: tall + 19, class: "d-word", text: left }),
    draw("text", { x: Math.max(4 + long, room), y: tall + 19, class: "d-word", "text-anchor": "end", text: right }));
}

// One end, enlarged, with the lines of its steps: those done, the one in hand, and those to come.
export function endDrawing(app, piece, end, steps, now) {
  const { mark, mirrored: flip, length, flat: { width, outline, bends, holes }, screws } = piece;
  const names = piece.legs.map(({ name }) => name);
  const margin = Math.min(Math.max(...names.map((name) => name.length)) * LETTER + 10, 130);
  const { first, last } = reachOf(piece, end, steps);
  const scale = Math.min((WIDTH - margin - 30) / (last - first), TALLEST / width);
  const long = (last - first) * scale, tall = width * scale, left = flip ? margin : 26;
  const put = ([at, v]) => [left + (flip ? last - at : at - first) * scale, 6 + v * scale];
  const id = `clip-${mark}-${end}`;
  const work = steps.flatMap((step, i) => step.lines.flatMap(crossed).map((points) =>
    draw("path", { d: line(points.map(put)), class: `d-work d-${step.verb} ${i === now ? "d-now" : i < now ? "d-done" : "d-later"}` })));
  const outward = (end === "low") === flip ? 1 : -1;
  return picture(tall + 30, nameOf(piece, end, steps[now], now),
    draw("clipPath", { id }, draw("rect", { x: left, y: 0, width: long, height: tall + 12 })),
    draw("g", { "clip-path": `url(#${id})` },
      draw("path", { d: line(outline.map(put), true), class: "d-sheet" }),
      ...holes.map((hole) => draw("path", { d: line(hole.map(put), true), class: "d-hole" })),
      ...bends.map((bend) => bendLine(bend, put)),
      ...screws.filter(([at]) => at > first && at < last).map((at) => spot(put(at), 2.6)),
      ...work),
    tear(put([end === "low" ? last : first, 0])[0], 6, tall),
    ...legNames(piece.legs, scale, flip ? left - 6 : left + long + 6, flip),
    numberOf(steps[now], now, put, outward),
    draw("text",
      { x: put([end === "low" ? 0 : length, 0])[0], y: tall + 22, class: "d-word", "text-anchor": outward > 0 ? "end" : "start",
        text: ENDS[end]() }));
}

// How much of the piece is seen at one end: all that its steps need, from `first` to `last`, inches.
function reachOf({ length, flat: { outline } }, end, steps) {
  const work = steps.flatMap((step) => step.lines.flat().map(([u]) => u));
  const u = [...outline.map(([at]) => at), ...work];
  const inward = work.map((at) => (end === "low" ? at : length - at));
  const reach = Math.min(Math.max(7, ...inward.map((at) => at + 1.5)), 16, length);
  return end === "low" ? { first: Math.min(0, ...u) - 0.4, last: reach } : { first: length - reach, last: Math.max(length, ...u) + 0.4 };
}

function nameOf({ mark }, end, step, now) {
  if (!step) {
    return end === "low" ? say("Low end of {mark}, flat, painted side up", { mark })
      : say("High end of {mark}, flat, painted side up", { mark });
  }
  const values = { mark, number: now + 1, step: step.text };
  return end === "low"
    ? say("Low end of {mark}, flat, painted side up, step {number}: {step}", values)
    : say("High end of {mark}, flat, painted side up, step {number}: {step}", values);
}

function legNames(legs, scale, x, flip) {
  return legs.filter(({ from, to }) => (to - from) * scale > NEAREST).map(({ name, from, to }) =>
    draw("text", { x, y: 10 + ((from + to) / 2) * scale, class: "d-word", "text-anchor": flip ? "end" : "start", text: name }));
}

// The number of the step in hand, beside its first line.
function numberOf(step, now, put, outward) {
  const points = step?.lines.flatMap(crossed)[0];
  if (!points) return null;
  const [at, high] = put(points[Math.floor(points.length / 2)]);
  const x = at + outward * 15, y = Math.max(high, 10);
  return draw("g", { class: "d-number" }, draw("circle", { cx: x, cy: y, r: 9 }),
    draw("text", { x, y: y + 4, "text-anchor": "middle", text: now + 1 }));
}

const line = (points, close) => `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${close ? "Z" : ""}`;

const bendLine = ({ line: points, fold }, put) => draw("path", { d: line(points.map(put)), class: fold === "tab" ? "d-fold" : "d-bend" });

const spot = ([x, y], r) => draw("circle", { cx: x.toFixed(1), cy: y.toFixed(1), r, class: "d-screw" });

function picture(tall, name, ...parts) {
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${tall.toFixed(0)}`, class: "tw-drawing", role: "img", "aria-label": name }, ...parts);
}

// Where a long piece is broken off in the drawing.
function tear(x, top, tall) {
  const points = Array.from({ length: 13 }, (_, i) => [x + (i % 2 ? 3 : -3), top + (tall * i) / 12]);
  return draw("path", { d: line(points), class: "d-torn" });
}
