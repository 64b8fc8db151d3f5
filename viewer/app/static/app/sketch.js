// The small drawing beside the roof's sizes, to scale: the house from the gable end, and from its long side. Each
// size has its line; the one that is being written is lit.

import { draw } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const WIDTH = 300, TALLEST = 190, GAP = 58, PAD = 46; // pixels
const NAMES = {
  gable: () => say("A gable roof: the end above, the long side below, to scale"),
  hip: () => say("A hip roof: the end above, the long side below, to scale"),
  shed: () => say("A shed roof: the end above, the long side below, to scale"),
};

export function sketch(sizes) {
  const shapes = [across(sizes), along(sizes)];
  const wide = Math.max(...shapes.map(({ box }) => box[2] - box[0])), tall = shapes.reduce((sum, { box }) => sum + box[3] - box[1], 0);
  const scale = Math.min((WIDTH - 2 * PAD) / wide, TALLEST / tall);
  let top = 32;
  const groups = shapes.map(({ box, lines, dims }) => {
    const height = (box[3] - box[1]) * scale, left = (WIDTH - (box[2] - box[0]) * scale) / 2, from = top;
    const at = ([x, y]) => [left + (x - box[0]) * scale, from + height - (y - box[1]) * scale];
    top += height + GAP;
    return draw("g", {}, lines.map((line) => stroke(line, at)), dims.map((dim) => measure(dim, at)));
  });
  return draw("svg", { viewBox: `0 0 ${WIDTH} ${(top - 8).toFixed(0)}`, role: "img", "aria-label": NAMES[sizes.form]() }, groups);
}

function stroke([kind, points], at) {
  return draw("path", { class: `s-${kind}`, d: `M${points.map((point) => at(point).map((n) => n.toFixed(1)).join(" ")).join("L")}` });
}

// One dimension: a line between two points, moved off by so many pixels, and its word beside its middle.
function measure({ dim, from, to, off, word, beside: [dx, dy, anchor = "middle"] }, at) {
  const [a, b] = [at(from), at(to)].map(([x, y]) => [x + off[0], y + off[1]]);
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const tick = [(-(b[1] - a[1]) / long) * 4, ((b[0] - a[0]) / long) * 4];
  const end = ([x, y]) => `M${x - tick[0]} ${y - tick[1]}L${x + tick[0]} ${y + tick[1]}`;
  const x = (a[0] + b[0]) / 2 + dx, y = (a[1] + b[1]) / 2 + dy;
  return draw("g", { "data-dim": dim, class: "s-dim" },
    draw("path", { d: `M${a.join(" ")}L${b.join(" ")}${end(a)}${end(b)}` }),
    draw("text", { x, y, "text-anchor": anchor, text: word }));
}

const level = (dim, from, to, word) => ({ dim, from, to, off: [0, 12], word, beside: [0, 14] });
const wallHeight = (wall) =>
  ({ dim: "wall_height", from: [0, -wall], to: [0, 0], off: [-12, 0], word: say("wall"), beside: [-6, 4, "end"] });

function across(sizes) {
  return sizes.form === "shed" ? shedEnd(sizes) : gableEnd(sizes);
}

function shedEnd({ width, pitch, wall, eave, high }) {
  const rise = width * Math.tan(pitch), low = -eave * Math.tan(pitch), up = rise + high * Math.tan(pitch);
  return {
    box: [-eave, -wall, width + high, up],
    lines: [
      ["wall", [[0, -wall], [0, 0], [width, rise], [width, -wall]]],
      ["roof", [[-eave, low], [width + high, up]]],
      ["ground", [[-eave, -wall], [width + high, -wall]]],
    ],
    dims: [
      level("width", [0, -wall], [width, -wall], say("width")),
      wallHeight(wall),
      { dim: "pitch", from: [0, 0], to: [width, rise], off: [-4, -14], word: say("pitch"), beside: [-4, -6, "end"] },
      { dim: "eave", from: [-eave, low], to: [0, low], off: [0, 9], word: say("eave"), beside: [-9, 9, "end"] },
      { dim: "high", from: [width, up], to: [width + high, up], off: [0, -9], word: say("high side"), beside: [0, -5] },
    ],
  };
}

// Each slope begins at its wall, and both meet at the ridge.
function gableEnd({ form, width, pitch, far, wall, far_wall: farWall, eave }) {
  const rear = form === "gable" ? far : pitch, step = farWall - wall;
  const { at, rise } = ridgeOf(width, pitch, rear, step);
  const front = -eave * Math.tan(pitch), back = step - eave * Math.tan(rear);
  const name = form === "hip" ? say("side pitch") : say("pitch");
  const behind = { dim: "far_pitch", from: [width, step], to: [at, rise], off: [6, -12], word: say("back pitch"),
    beside: [6, -6, "start"] };
  const farHeight = { dim: "far_wall_height", from: [width, -wall], to: [width, step], off: [-10, 0], word: say("back wall"),
    beside: [-6, 4, "end"] };
  return {
    box: [-eave, -wall, width + eave, rise],
    lines: [
      ["wall", [[0, -wall], [0, 0], [at, rise], [width, step], [width, -wall]]],
      ["roof", [[-eave, front], [at, rise], [width + eave, back]]],
      ["ground", [[-eave, -wall], [width + eave, -wall]]],
    ],
    dims: [
      level("width", [0, -wall], [width, -wall], say("width")),
      wallHeight(wall),
      { dim: "pitch", from: [0, 0], to: [at, rise], off: [-6, -12], word: name, beside: [-6, -6, "end"] },
      ...(form === "gable" ? [behind, farHeight] : []),
      { dim: "eave", from: [width, back], to: [width + eave, back], off: [0, 9], word: say("eave"), beside: [9, 9, "start"] },
    ],
  };
}

// Where two slopes meet, from the front wall, and how high above it; the back wall is a step higher than the front.
function ridgeOf(width, front, rear, step) {
  const at = (step + width * Math.tan(rear)) / (Math.tan(front) + Math.tan(rear));
  return { at, rise: at * Math.tan(front) };
}

function along({ form, length, width, pitch, far, end, wall, far_wall: farWall, eave, rake, deck }) {
  const hip = form === "hip";
  const rise = form === "shed" ? width * Math.tan(pitch) : ridgeOf(width, pitch, form === "gable" ? far : pitch, farWall - wall).rise;
  const over = hip ? eave : rake, low = -eave * Math.tan(hip ? end : pitch);
  const inset = hip ? Math.min(rise / Math.tan(end), length / 2) : -over;
  const peak = hip ? Math.min(rise, (length / 2) * Math.tan(end)) : rise;
  const roof = [[-over, low], [inset, peak], [length - inset, peak], [length + over, low], [-over, low]];
  const thick = Math.max(deck, 0.5);
  return {
    box: [-over, -wall, length + over, peak],
    lines: [
      ["wall", [[0, low], [0, -wall], [length, -wall], [length, low]]],
      ["slope", roof],
      ["roof", roof],
      ["ground", [[-over, -wall], [length + over, -wall]]],
    ],
    dims: [
      level("length", [0, -wall], [length, -wall], say("length")),
      hip
        ? { dim: "end_pitch", from: [-over, low], to: [inset, peak], off: [-6, -8], word: say("end pitch"), beside: [-6, -4, "end"] }
        : { dim: "rake", from: [-over, peak], to: [0, peak], off: [0, -9], word: say("rake"), beside: [0, -5] },
      { dim: "deck", from: [length + over, low], to: [length + over, low + thick], off: [8, 0], word: say("deck"),
        beside: [6, 4, "start"] },
    ],
  };
}
