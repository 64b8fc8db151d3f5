// The work at one end of a piece, a step at a time: what to do, drawn on the flat pattern and on the roof.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { endDrawing } from "trimwright/read/flat_pattern.js";
import { writeWork } from "trimwright/seen/notes.js";

export function endPage(app, piece, end) {
  const { steps } = piece.ends[end];
  app.view.viewpoints.lookAt(piece.mark, end);
  const el = make("div", { class: "tw-end" });
  let at = 0;
  const go = (by) => {
    at += by;
    const step = steps[at];
    writeWork(app.view, piece.mark, step?.lines ?? [], step?.verb);
    el.replaceChildren(
      make("div", { class: "tw-end-read" }, stepWords(piece, end, at), endDrawing(app, piece, end, steps, at),
        make("p", { class: "tw-caution-line", text: app.data.caution }), allSteps(steps)),
      make("div", { class: "tw-pair" },
        button(say("Back"), () => go(-1), { disabled: at === 0 }),
        button(say("Next step"), () => go(1), { class: "tw-main", disabled: at >= steps.length - 1 })));
  };
  go(0);
  return el;
}

function stepWords(piece, end, at) {
  const { steps, says } = piece.ends[end];
  const step = steps[at];
  if (!step) return make("p", { text: say("Nothing to do at this end.") });
  return [
    make("p", { class: "tw-step-count" },
      make("b", { text: say("Step {number} of {count}", { number: at + 1, count: steps.length }) }),
      make("span", { class: "tw-verb", text: step.work }),
      make("span", { class: "tw-end-says", text: says })),
    make("p", { class: "tw-step-text", "aria-live": "polite", text: step.text }),
  ];
}

function allSteps(steps) {
  return make("details", {}, make("summary", { text: say("All steps") }),
    make("ol", { class: "tw-steps" }, steps.map(({ text }) => make("li", { text }))));
}
