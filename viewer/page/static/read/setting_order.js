// The sheet that sets the roof piece by piece, in the order of the trade, forward and back.

import { button, make } from "trimwright/common/elements.js";
import { tag } from "trimwright/read/tag.js";

let follow = true;

export function orderSheet(app) {
  const { view, data } = app;
  const steps = data.steps;
  const now = make("div", { class: "tw-now", "aria-live": "polite" });
  const range = make("input", { type: "range", min: 0, max: steps.length, id: "tw-steps", "aria-label": "How far the roof is set", oninput: (event) => view.arrangement.setStep(Number(event.target.value)) });
  const back = button("Take off", () => view.arrangement.setStep(view.arrangement.step - 1));
  const next = button("Set the next", () => view.arrangement.setStep(view.arrangement.step + 1), { class: "tw-main" });
  const list = make("ol", { class: "tw-order" }, steps.map((step, i) => make("li", {}, button(`${step.title}, ${step.says}`, () => view.arrangement.setStep(i + 1), { class: "tw-link" }))));
  const show = () => {
    const n = view.arrangement.step, step = steps[n - 1];
    range.value = n;
    range.setAttribute("aria-valuetext", step ? `${n} of ${steps.length}: ${step.title}` : "nothing set");
    back.disabled = n === 0;
    next.disabled = n === steps.length;
    const piece = step && step.names.length === 1 && view.pieces.get(step.names[0]);
    const over = piece?.under?.length ? `over ${piece.under.join(", ")}` : piece ? "on the bare deck" : "";
    const said = step ? [piece ? tag(piece, true) : make("b", { class: "tw-now-title", text: step.title }), make("span", { class: "tw-now-text", text: [step.says, over].filter(Boolean).join(", ") })] : [make("b", { class: "tw-now-title", text: "Bare deck" })];
    now.replaceChildren(make("span", { class: "tw-count tw-figure", text: `${n} of ${steps.length}` }), ...said);
    [...list.children].forEach((item, i) => item.classList.toggle("tw-done", i < n) || item.firstChild.toggleAttribute("aria-current", i === n - 1));
    if (follow && piece && n < steps.length) view.viewpoints.lookAt(piece.mark);
    else if (!piece || n === steps.length) view.viewpoints.leave();
  };
  view.addEventListener("step", show);
  show();
  const el = make("div", { class: "tw-order-sheet" }, now, range, make("div", { class: "tw-pair" }, back, next),
    make("div", { class: "tw-pair" },
      button("From bare deck", () => view.arrangement.setStep(0), { class: "tw-plain" }),
      button("All set", () => (view.arrangement.setStep(steps.length), view.arrangement.select(null)), { class: "tw-plain" })),
    make("label", { class: "tw-check" }, make("input", { type: "checkbox", checked: follow, onchange: (event) => (follow = event.target.checked) }), make("span", { text: "Go along to each piece" })),
    make("p", { class: "tw-caution-line", text: data.caution }),
    make("details", {}, make("summary", { text: "The whole order" }), list));
  return { title: "Order of setting", el, leave: () => view.removeEventListener("step", show), shown: () => (view.viewpoints.leave(), view.arrangement.showPanels(true)) };
}
