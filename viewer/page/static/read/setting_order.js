// The sheet that sets the roof piece by piece, in the order of the trade, forward and back.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { tag } from "trimwright/read/tag.js";

let follow = true; // whether the eye goes along to each piece

export function orderSheet(app) {
  const { view, data } = app;
  const { arrangement } = view, { steps } = data;
  const now = make("div", { class: "tw-now", "aria-live": "polite" });
  const range = make("input", {
    type: "range", min: 0, max: steps.length, id: "tw-steps", "aria-label": say("How far the roof is set"),
    oninput: (event) => arrangement.setStep(Number(event.target.value)),
  });
  const back = button(say("One back"), () => arrangement.setStep(arrangement.step - 1));
  const next = button(say("Set the next"), () => arrangement.setStep(arrangement.step + 1), { class: "tw-main" });
  const list = make("ol", { class: "tw-order" }, steps.map((step, i) =>
    make("li", {}, button(say("{title}: {says}", step), () => arrangement.setStep(i + 1), { class: "tw-link" }))));
  const show = () => {
    const n = arrangement.step, step = steps[n - 1];
    const piece = step?.names.length === 1 ? view.pieces.get(step.names[0]) : null;
    range.value = n;
    range.setAttribute("aria-valuetext", step ? say("{n} of {count}: {title}", { n, count: steps.length, title: step.title })
      : say("Bare deck"));
    back.disabled = n === 0;
    next.disabled = n === steps.length;
    now.replaceChildren(make("span", { class: "tw-count tw-figure", text: say("{n} of {count}", { n, count: steps.length }) }),
      ...wordsOf(step, piece));
    [...list.children].forEach((item, i) => {
      item.classList.toggle("tw-done", i < n);
      item.firstChild.toggleAttribute("aria-current", i === n - 1);
    });
    stand(view, piece, n, steps.length);
  };
  view.addEventListener("step", show);
  show();
  const el = make("div", { class: "tw-order-sheet" }, now, range,
    make("div", { class: "tw-pair" }, back, next),
    make("div", { class: "tw-pair" },
      button(say("From bare deck"), () => arrangement.setStep(0), { class: "tw-plain" }),
      button(say("All set"), () => (arrangement.setStep(steps.length), arrangement.select(null)), { class: "tw-plain" })),
    followCheck(),
    make("p", { class: "tw-caution-line", text: data.caution }),
    make("details", {}, make("summary", { text: say("The whole order") }), list));
  return {
    title: say("Order of setting"), el,
    leave: () => view.removeEventListener("step", show),
    shown: () => (view.viewpoints.leave(), arrangement.showPanels(true)),
  };
}

// What the last step set, and what it lies over.
function wordsOf(step, piece) {
  if (!step) return [make("b", { class: "tw-now-title", text: say("Bare deck") })];
  const { says, title } = step;
  if (!piece) return [make("b", { class: "tw-now-title", text: title }), make("span", { class: "tw-now-text", text: says })];
  const { under } = piece;
  const text = under.length ? say("{says}, over {marks}", { says, marks: under.join(", ") }) : say("{says}, on the bare deck", { says });
  return [tag(piece, true), make("span", { class: "tw-now-text", text })];
}

// Where the eye goes with a step: to its piece while the roof is set by pieces, else back to the whole roof.
function stand({ viewpoints, data }, piece, n, count) {
  if (follow && piece && n < count) viewpoints.lookAt(piece.mark);
  else if (follow && n === 0) viewpoints.fit();
  else if (!piece || n === count) viewpoints.leave();
}

function followCheck() {
  const check = make("input", { type: "checkbox", checked: follow, onchange: (event) => (follow = event.target.checked) });
  return make("label", { class: "tw-check" }, check, make("span", { text: say("Go along to each piece") }));
}
