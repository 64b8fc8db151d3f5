// A piece along a tape, from its low end: its screws by their marks, its laps by their length.

import { draw } from "trimwright/common/elements.js";

const TALL = 132, BAND = 62, HIGH = 46; // pixels: all of it, where the tape begins, how wide the tape is
const SCALE = 24; // pixels to the inch
const CLOSE = 74; // pixels between two marks that would stand on each other
const MILLIMETER = 1 / 25.4;

export function tapeDrawing(app, piece) {
  const metric = app.data.tape.style === "mm";
  const width = Math.ceil(piece.length * SCALE) + 32;
  const x = (at) => 12 + at * SCALE;
  const svg = draw("svg", { width, height: TALL, viewBox: `0 0 ${width} ${TALL}`, class: "tw-tape", "aria-hidden": "true" });
  svg.append(draw("rect", { x: x(0), y: BAND, width: piece.length * SCALE, height: HIGH, class: "t-band" }));
  for (const end of ["low", "high"]) if (piece.ends[end].lap) svg.append(...lapDrawing(piece, end, x));
  svg.append(...(metric ? meters(piece.length, x) : feet(piece.length, x)));
  svg.append(...marksDrawing(app, piece, x, width));
  return svg;
}

// A lap as a bar below the tape, with what it is.
function lapDrawing(piece, end, x) {
  const { says, lap: { length } } = piece.ends[end];
  const low = end === "low";
  return [
    draw("rect", { x: x(low ? 0 : piece.length - length), y: BAND + HIGH, width: length * SCALE, height: 8, class: "t-lap" }),
    draw("text", { x: x(low ? 0 : piece.length), y: TALL - 4, class: "t-word", "text-anchor": low ? "start" : "end", text: says }),
  ];
}

// The screws' marks above the tape; where two are close, one stands higher than the other.
function marksDrawing(app, piece, x, width) {
  let last = -Infinity, level = 0;
  return [...new Set(piece.screws.map((screw) => screw[0]))].sort((a, b) => a - b).flatMap((at) => {
    level = x(at) - last < CLOSE ? 1 - level : 0;
    last = x(at);
    const y = level ? 14 : 34;
    const anchor = last < 40 ? "start" : last > width - 40 ? "end" : "middle";
    return [
      draw("path", { d: `M${last} ${y + 5}V${BAND}m-5 -9l5 9l5-9z`, class: "t-mark" }),
      draw("text", { x: last, y, class: "t-at", "text-anchor": anchor, text: app.length(at) }),
    ];
  });
}

function feet(length, x) {
  const ticks = [[], [], []], words = [];
  for (let i = 0; i <= length * 4; i++) {
    const at = i / 4, size = i % 4 === 0 ? 0 : i % 2 === 0 ? 1 : 2;
    ticks[size].push(`M${x(at)} ${BAND}v${[20, 12, 7][size]}`);
    if (size || !at || length - at < 0.4) continue;
    const whole = at % 12 === 0;
    if (whole) words.push(draw("rect", { x: x(at) - 13, y: BAND + 22, width: 26, height: 20, class: "t-foot" }));
    words.push(draw("text",
      { x: x(at), y: BAND + 36, class: whole ? "t-foot-word" : "t-inch", "text-anchor": "middle", text: whole ? `${at / 12}'` : at % 12 }));
  }
  return [...ticks.map((some) => draw("path", { d: some.join(""), class: "t-tick" })), ...words];
}

function meters(length, x) {
  const ticks = [[], [], []], words = [];
  for (let i = 0; i * 10 * MILLIMETER <= length; i++) {
    const at = i * 10 * MILLIMETER, size = i % 10 === 0 ? 0 : i % 5 === 0 ? 1 : 2;
    ticks[size].push(`M${x(at)} ${BAND}v${[20, 12, 7][size]}`);
    if (size === 0 && i) words.push(draw("text", { x: x(at), y: BAND + 37, class: "t-inch", "text-anchor": "middle", text: i * 10 }));
  }
  return [...ticks.map((some) => draw("path", { d: some.join(""), class: "t-tick" })), ...words];
}
