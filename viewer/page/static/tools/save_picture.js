// Saving a picture to keep or to send: the present view in a set shape, over a strip with what it is called.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const INK = "#14212b", PAPER = "#ffffff", SOFT = "#4a5760";
const STRIP = 0.085; // height of the strip, as a share of the shorter side

// Width and height, pixels; none for the shape that the view has.
const SHAPES = [
  { name: () => say("As it is seen") },
  { name: () => say("Phone, upright"), size: [1080, 1920] },
  { name: () => say("Square"), size: [1440, 1440] },
  { name: () => say("Letter, lying"), size: [2200, 1700] },
  { name: () => say("A4, lying"), size: [2338, 1654] },
];

// The sheet on which a shape is chosen. what: () => {view, title, caption}
export function pictureSheet(what, tell) {
  return { title: say("Save a picture"), el: make("div", { class: "tw-block" }, shapeChips(what, tell)) };
}

export function shapeChips(what, tell) {
  return make("div", { class: "tw-chips tw-shapes" },
    SHAPES.map(({ name, size }) => button(name(), () => save(what(), size, tell), { class: "tw-chip" })));
}

async function save({ view, title, caption }, size, tell) {
  const seen = view.painter.snapshot(...(size ? [size[0], size[1] - strip(size)] : []));
  const blob = await captioned(seen, title, caption, strip(size ?? [seen.width, seen.height]));
  const link = make("a",
    { href: URL.createObjectURL(blob), download: `${[title, caption].filter(Boolean).join(" ").replace(/[^\p{L}\p{N}]+/gu, "-")}.png` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  tell(say("Picture saved"));
}

const strip = ([width, height]) => Math.round(Math.min(width, height) * STRIP);

// Returns a picture as a PNG, over a strip with the title and what it shows.
function captioned(seen, title, caption, tall) {
  const paper = make("canvas", { width: seen.width, height: seen.height + tall }), pen = paper.getContext("2d");
  pen.fillStyle = PAPER;
  pen.fillRect(0, 0, paper.width, paper.height);
  pen.drawImage(seen, 0, 0);
  pen.textBaseline = "middle";
  const middle = seen.height + tall / 2, edge = tall * 0.4, room = paper.width - 2 * edge;
  const told = (text, weight, color, from, most) => {
    pen.font = `${weight} ${Math.round(tall * 0.4)}px system-ui, sans-serif`;
    pen.fillStyle = color;
    pen.fillText(text, from, middle, most);
    return Math.min(pen.measureText(text).width, most);
  };
  const wide = told(title, 650, INK, edge, caption ? room * 0.62 : room);
  if (caption) told(caption, 400, SOFT, edge + wide + tall * 0.45, room - wide - tall * 0.45);
  return new Promise((done) => paper.toBlob(done, "image/png"));
}
