// Flat patterns: the sheet before it is folded, painted side up. The low end of a right-hand piece is on the right.

import { draw } from "trimwright/common/elements.js";
import { crossed } from "trimwright/common/crossed.js";

const WIDTH = 344;
const line = (points, close) => `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${close ? "Z" : ""}`;

// The whole piece, to scale.
export function wholeDrawing(app, piece) {
  const { width } = piece.flat;
  const scale = Math.min((WIDTH - 8) / piece.length, 120 / width);
  const long = piece.length * scale, tall = width * scale;
  const put = ([u, v]) => [4 + (piece.mirrored ? piece.length - u : u) * scale, 4 + v * scale];
  const ends = piece.mirrored ? ["high end", "low end"] : ["low end", "high end"];
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${(tall + 24).toFixed(0)}`, class: "tw-drawing", role: "img", "aria-label": `Flat pattern of ${piece.mark}, ${piece.says} long and ${app.length(width)} wide` },
    draw("path", { d: line(piece.flat.outline.map(put), true), class: "d-sheet" }),
    ...piece.flat.bends.map((bend) => draw("path", { d: line(bend.line.map(put)), class: bend.fold === "tab" ? "d-fold" : "d-bend" })),
    ...piece.screws.map((at) => spot(put(at), 1.6)),
    draw("text", { x: 4, y: tall + 19, class: "d-word", text: ends[0] }),
    draw("text", { x: Math.max(4 + long, 130), y: tall + 19, class: "d-word", "text-anchor": "end", text: ends[1] }));
}

// One end, enlarged, with the lines of its steps: those done, the one in hand, and those to come.
export function endDrawing(app, piece, end, steps, now) {
  const { width, outline, bends } = piece.flat;
  const u = outline.map((point) => point[0]).concat(steps.flatMap((step) => step.lines.flat().map((point) => point[0])));
  const inward = steps.flatMap((step) => step.lines.flat().map(([at]) => (end === "low" ? at : piece.length - at)));
  const reach = Math.min(Math.max(7, ...inward.map((at) => at + 1.5)), 16, piece.length);
  const first = end === "low" ? Math.min(0, ...u) - 0.4 : piece.length - reach;
  const last = end === "low" ? reach : Math.max(piece.length, ...u) + 0.4;
  const scale = Math.min((WIDTH - 100) / (last - first), 200 / width);
  const flip = piece.mirrored;
  const long = (last - first) * scale, tall = width * scale, left = flip ? 70 : 26;
  const put = ([at, v]) => [left + (flip ? last - at : at - first) * scale, 6 + v * scale];
  const id = `clip-${piece.mark}-${end}`;
  const view = draw("clipPath", { id }, draw("rect", { x: left, y: 0, width: long, height: tall + 12 }));
  const cut = end === "low" ? [last, first] : [first, last];
  const torn = tear(put([cut[0], 0])[0], 6, tall);
  const numbers = [];
  const paths = steps.flatMap((step, i) => step.lines.flatMap(crossed).map((points) => {
    if (i === now) numbers.push([i, put(points[Math.floor(points.length / 2)])]);
    return draw("path", { d: line(points.map(put)), class: `d-work d-${step.verb} ${i === now ? "d-now" : i < now ? "d-done" : "d-later"}` });
  }));
  const legs = piece.legs.filter(({ from, to }) => (to - from) * scale > 9).map(({ name, from, to }) =>
    draw("text", { x: flip ? left - 6 : left + long + 6, y: 10 + ((from + to) / 2) * scale, class: "d-word", "text-anchor": flip ? "end" : "start", text: name }));
  const says = steps[now] ? `, step ${now + 1}: ${steps[now].text}` : "";
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${(tall + 30).toFixed(0)}`, class: "tw-drawing", role: "img", "aria-label": `${end === "low" ? "Low" : "High"} end of ${piece.mark}, flat, painted side up${says}` },
    view,
    draw("g", { "clip-path": `url(#${id})` },
      draw("path", { d: line(outline.map(put), true), class: "d-sheet" }),
      ...piece.flat.holes.map((hole) => draw("path", { d: line(hole.map(put), true), class: "d-hole" })),
      ...bends.map((bend) => draw("path", { d: line(bend.line.map(put)), class: bend.fold === "tab" ? "d-fold" : "d-bend" })),
      ...piece.screws.filter(([at]) => at > first && at < last).map((at) => spot(put(at), 2.6)),
      ...paths),
    torn, ...legs,
    ...numbers.slice(0, 1).map(([i, [at, y]]) => [i, [at + ((end === "low") === flip ? 15 : -15), y]]).map(([i, [x, y]]) => draw("g", { class: "d-number" }, draw("circle", { cx: x, cy: y, r: 9 }), draw("text", { x, y: y + 4, "text-anchor": "middle", text: i + 1 }))),
    draw("text", { x: put([end === "low" ? 0 : piece.length, 0])[0], y: tall + 22, class: "d-word", "text-anchor": (end === "low") === flip ? "end" : "start", text: `${end} end` }));
}

const spot = ([x, y], r) => draw("circle", { cx: x.toFixed(1), cy: y.toFixed(1), r, class: "d-screw" });

// Where a long piece is broken off in the drawing.
function tear(x, top, tall) {
  const points = [];
  for (let i = 0; i <= 12; i++) points.push([x + (i % 2 ? 3 : -3), top + (tall * i) / 12]);
  return draw("path", { d: line(points), class: "d-torn" });
}
