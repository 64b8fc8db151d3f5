// A piece along a tape, from its low end: its screws by their marks, its laps by their length.

import { draw } from "trimwright/common/elements.js";

const TALL = 132, BAND = 62, HIGH = 46; // pixels: all of it, where the tape begins, how wide the tape is
const SCALE = 24; // pixels to the inch
const MILLIMETRE = 1 / 25.4;

export function tapeDrawing(app, piece) {
  const metric = app.data.tape.style === "mm";
  const width = Math.ceil(piece.length * SCALE) + 32;
  const x = (at) => 12 + at * SCALE;
  const svg = draw("svg", { width, height: TALL, viewBox: `0 0 ${width} ${TALL}`, class: "tw-tape", "aria-hidden": "true" });
  svg.append(draw("rect", { x: x(0), y: BAND, width: piece.length * SCALE, height: HIGH, class: "t-band" }));
  for (const end of ["low", "high"]) for (const one of piece.ends[end]) {
    if (one.kind !== "lap") continue;
    const from = end === "low" ? 0 : piece.length - one.length;
    svg.append(draw("rect", { x: x(from), y: BAND + HIGH, width: one.length * SCALE, height: 8, class: "t-lap" }));
    svg.append(draw("text", { x: x(end === "low" ? 0 : piece.length), y: TALL - 4, class: "t-word", "text-anchor": end === "low" ? "start" : "end", text: `lap ${app.length(one.length)} ${one.lies} ${one.with[0]}` }));
  }
  svg.append(...(metric ? metres(piece.length, x) : feet(piece.length, x)));
  let last = -Infinity, level = 0;
  for (const at of [...new Set(piece.screws.map((screw) => screw[0]))].sort((a, b) => a - b)) {
    level = x(at) - last < 74 ? 1 - level : 0;
    last = x(at);
    const y = level ? 14 : 34;
    svg.append(draw("path", { d: `M${x(at)} ${y + 5}V${BAND}m-5 -9l5 9l5-9z`, class: "t-mark" }), draw("text", { x: x(at), y, class: "t-at", "text-anchor": x(at) < 40 ? "start" : x(at) > width - 40 ? "end" : "middle", text: app.length(at) }));
  }
  return svg;
}

function feet(length, x) {
  const ticks = [[], [], []], words = [];
  for (let i = 0; i <= length * 4; i++) {
    const at = i / 4, size = i % 4 === 0 ? 0 : i % 2 === 0 ? 1 : 2;
    ticks[size].push(`M${x(at)} ${BAND}v${[20, 12, 7][size]}`);
    if (size || !at || length - at < 0.4) continue;
    const whole = at % 12 === 0;
    if (whole) words.push(draw("rect", { x: x(at) - 13, y: BAND + 22, width: 26, height: 20, class: "t-foot" }));
    words.push(draw("text", { x: x(at), y: BAND + 36, class: whole ? "t-foot-word" : "t-inch", "text-anchor": "middle", text: whole ? `${at / 12}'` : at % 12 }));
  }
  return [...ticks.map((some) => draw("path", { d: some.join(""), class: "t-tick" })), ...words];
}

function metres(length, x) {
  const ticks = [[], [], []], words = [];
  for (let i = 0; i * 10 * MILLIMETRE <= length; i++) {
    const at = i * 10 * MILLIMETRE, size = i % 10 === 0 ? 0 : i % 5 === 0 ? 1 : 2;
    ticks[size].push(`M${x(at)} ${BAND}v${[20, 12, 7][size]}`);
    if (size === 0 && i) words.push(draw("text", { x: x(at), y: BAND + 37, class: "t-inch", "text-anchor": "middle", text: i * 10 }));
  }
  return [...ticks.map((some) => draw("path", { d: some.join(""), class: "t-tick" })), ...words];
}
