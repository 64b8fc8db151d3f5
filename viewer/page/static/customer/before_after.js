// A photograph as it was and with the roof in it, one over the other: a handle slides between them.

import { draw, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const BEGIN = 50, STEP = 1; // percent of the width

export function slideBetween(box) {
  const handle = make("input", {
    type: "range", min: 0, max: 100, step: STEP, value: BEGIN, class: "cu-slider",
    "aria-label": say("From the house as it is to the new roof"), oninput: () => put(Number(handle.value)),
  });
  const arrows = draw("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, draw("path", { d: "M9 6l-6 6 6 6M15 6l6 6-6 6" }));
  const put = (share) => box.style.setProperty("--share", `${share}%`);
  const told = (text, side) => make("span", { class: `cu-tag cu-tag-${side}`, text, "aria-hidden": "true" });
  box.append(make("span", { class: "cu-seam" }, arrows), told(say("Before"), "left"), told(say("After"), "right"), handle);
  box.classList.add("cu-sliding");
  put(BEGIN);
}
