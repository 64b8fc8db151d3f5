// Where the sun stands: round the house, and how high.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

// From the back of the house, an eighth of a turn at a time, clockwise seen from above.
const SIDES = [
  (values) => say("from the back, {height}° high", values),
  (values) => say("from the back right, {height}° high", values),
  (values) => say("from the right, {height}° high", values),
  (values) => say("from the front right, {height}° high", values),
  (values) => say("from the front, {height}° high", values),
  (values) => say("from the front left, {height}° high", values),
  (values) => say("from the left, {height}° high", values),
  (values) => say("from the back left, {height}° high", values),
];
const COMPASS = [
  () => say("north"), () => say("north-east"), () => say("east"), () => say("south-east"),
  () => say("south"), () => say("south-west"), () => say("west"), () => say("north-west"),
];

export function sunBlock({ view, data }) {
  const from = make("input", { type: "range", min: 0, max: 345, step: 15, value: view.sky.from, oninput: change });
  const height = make("input", { type: "range", min: 8, max: 80, value: view.sky.height, oninput: change });
  const says = make("span", { class: "tw-quiet" });
  function change() {
    view.setSun(Number(from.value), Number(height.value));
    write();
  }
  function write() {
    says.textContent = sunWords(Number(from.value), Number(height.value), data.sun);
    for (const one of [from, height]) one.setAttribute("aria-valuetext", says.textContent);
  }
  write();
  return make("div", { class: "tw-block" }, make("h3", {}, say("Sun"), " ", says),
    make("label", { class: "tw-slide" }, make("span", { text: say("Round the house") }), from),
    make("label", { class: "tw-slide" }, make("span", { text: say("Height") }), height));
}

// from: degrees from the back of the house; north: the same of north, null where nobody knows it.
export function sunWords(from, height, north) {
  const side = SIDES[eighth(from)]({ height });
  return north === null ? side : say("{side}, from the {compass}", { side, compass: COMPASS[eighth(from - north)]() });
}

const eighth = (degrees) => ((Math.round(degrees / 45) % 8) + 8) % 8;
