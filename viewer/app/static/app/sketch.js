// The small drawing beside the roof's sizes, to scale: the house from the gable end, and from its long side. Each
// size has its line; the one that is being written is lit.

import { draw } from "trimwright/common/elements.js";

const W = 300, GAP = 26, PAD = 46;

export function sketch(sizes) {
  const shapes = [across(sizes), along(sizes)];
  const wide = Math.max(...shapes.map(({ box }) => box[2] - box[0])), tall = shapes.reduce((sum, { box }) => sum + box[3] - box[1], 0);
  const scale = Math.min((W - 2 * PAD) / wide, 190 / tall);
  let top = 32;
  const groups = shapes.map(({ box, lines, dims }) => {
    const height = (box[3] - box[1]) * scale, left = (W - (box[2] - box[0]) * scale) / 2;
    const at = ([x, y]) => [left + (x - box[0]) * scale, top + height - (y - box[1]) * scale];
    const group = draw("g", {}, lines.map(([kind, points]) => draw("path", { class: `s-${kind}`, d: `M${points.map((point) => at(point).map((n) => n.toFixed(1)).join(" ")).join("L")}` })), dims.map((dim) => measure(dim, at)));
    top += height + GAP + 14;
    return group;
  });
  const names = { gable: "a gable roof", hip: "a hip roof", shed: "a shed roof" };
  return [draw("svg", { viewBox: `0 0 ${W} ${(top - 8).toFixed(0)}`, role: "img", "aria-label": `${names[sizes.form]}: the end above, the long side below, to scale` }, groups)];
}

// One dimension: a line between two points, moved off by so many pixels; a pitch is an angle at its first point.
function measure({ dim, from, to, off = [0, 0], word, turn }, at) {
  const [a, b] = [at(from), at(to)].map(([x, y]) => [x + off[0], y + off[1]]);
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1, across = [(-(b[1] - a[1]) / long) * 4, ((b[0] - a[0]) / long) * 4];
  const tick = ([x, y]) => `M${x - across[0]} ${y - across[1]}L${x + across[0]} ${y + across[1]}`;
  const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const text = { x: middle[0] + (turn?.[0] ?? 0), y: middle[1] + (turn?.[1] ?? 4), "text-anchor": turn?.[2] ?? "middle" };
  return draw("g", { "data-dim": dim, class: "s-dim" }, draw("path", { d: `M${a.join(" ")}L${b.join(" ")}${tick(a)}${tick(b)}` }), draw("text", { ...text, text: word }));
}

function across({ form, width, pitch, far, wall, eave, high }) {
  const face = pitch, rear = form === "gable" ? far : pitch;
  if (form === "shed") {
    const rise = width * Math.tan(pitch), low = -eave * Math.tan(pitch), up = rise + high * Math.tan(pitch);
    return {
      box: [-eave, -wall, width + high, up],
      lines: [["wall", [[0, -wall], [0, 0], [width, rise], [width, -wall]]], ["roof", [[-eave, low], [width + high, up]]], ["ground", [[-eave, -wall], [width + high, -wall]]]],
      dims: [
        { dim: "width", from: [0, -wall], to: [width, -wall], off: [0, 12], word: "width", turn: [0, 14] },
        { dim: "wall_height", from: [0, -wall], to: [0, 0], off: [-12, 0], word: "wall", turn: [-6, 4, "end"] },
        { dim: "pitch", from: [0, 0], to: [width, rise], off: [-4, -14], word: "pitch", turn: [-4, -6, "end"] },
        { dim: "eave", from: [-eave, low], to: [0, low], off: [0, 9], word: "eave", turn: [-9, 9, "end"] },
        { dim: "high", from: [width, up], to: [width + high, up], off: [0, -9], word: "high side", turn: [0, -5] },
      ],
    };
  }
  // Where the two slopes meet, from the front wall: both begin at the same height.
  const ridge = (width * Math.tan(rear)) / (Math.tan(face) + Math.tan(rear)), rise = ridge * Math.tan(face);
  const front = -eave * Math.tan(face), back = -eave * Math.tan(rear);
  return {
    box: [-eave, -wall, width + eave, rise],
    lines: [["wall", [[0, -wall], [0, 0], [ridge, rise], [width, 0], [width, -wall]]], ["roof", [[-eave, front], [ridge, rise], [width + eave, back]]], ["ground", [[-eave, -wall], [width + eave, -wall]]]],
    dims: [
      { dim: "width", from: [0, -wall], to: [width, -wall], off: [0, 12], word: "width", turn: [0, 14] },
      { dim: "wall_height", from: [0, -wall], to: [0, 0], off: [-12, 0], word: "wall", turn: [-6, 4, "end"] },
      { dim: "pitch", from: [0, 0], to: [ridge, rise], off: [-6, -12], word: form === "hip" ? "side pitch" : "pitch", turn: [-6, -6, "end"] },
      ...(form === "gable" ? [{ dim: "far_pitch", from: [width, 0], to: [ridge, rise], off: [6, -12], word: "back pitch", turn: [6, -6, "start"] }] : []),
      { dim: "eave", from: [width, back], to: [width + eave, back], off: [0, 9], word: "eave", turn: [9, 9, "start"] },
    ],
  };
}

function along({ form, length, width, pitch, far, end, wall, eave, rake, deck }) {
  const rear = form === "gable" ? far : pitch;
  const ridge = form === "shed" ? width : (width * Math.tan(rear)) / (Math.tan(pitch) + Math.tan(rear)), rise = ridge * Math.tan(pitch);
  const over = form === "hip" ? eave : rake, low = -eave * Math.tan(form === "hip" ? end : pitch);
  const inset = form === "hip" ? Math.min(rise / Math.tan(end), length / 2) : -over, peak = form === "hip" ? Math.min(rise, (length / 2) * Math.tan(end)) : rise;
  const roof = [[-over, low], [inset, peak], [length - inset, peak], [length + over, low], [-over, low]];
  const thick = Math.max(deck, 0.5);
  return {
    box: [-over, -wall, length + over, peak],
    lines: [["wall", [[0, low], [0, -wall], [length, -wall], [length, low]]], ["slope", roof], ["roof", roof], ["ground", [[-over, -wall], [length + over, -wall]]]],
    dims: [
      { dim: "length", from: [0, -wall], to: [length, -wall], off: [0, 12], word: "length", turn: [0, 14] },
      form === "hip"
        ? { dim: "end_pitch", from: [-over, low], to: [inset, peak], off: [-6, -8], word: "end pitch", turn: [-6, -4, "end"] }
        : { dim: "rake", from: [-over, peak], to: [0, peak], off: [0, -9], word: "rake", turn: [0, -5] },
      { dim: "deck", from: [length + over, low], to: [length + over, low + thick], off: [8, 0], word: "deck", turn: [6, 4, "start"] },
    ],
  };
}
