// What is shown of the roof, and how far its layers are lifted apart.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

export function showBlock({ view }) {
  const { arrangement, looks, viewpoints } = view;
  const { shown } = arrangement;
  const check = (name, text, on, set) => make("label", { class: "tw-check" },
    make("input", { type: "checkbox", "data-show": name, checked: on, onchange: (event) => set(event.target.checked) }),
      make("span", { text }));
  const lifted = (event) => {
    if (!arrangement.lift) viewpoints.fit();
    arrangement.liftApart(event.target.value / 100);
  };
  return make("div", { class: "tw-block" }, make("h3", { text: say("Show") }),
    make("div", { class: "tw-checks" },
      check("panels", say("Panels"), arrangement.panelsSeen, (on) => arrangement.showPanels(on)),
      check("apart", say("Pieces told apart"), looks.apart, (on) => arrangement.tellApart(on)),
      check("marks", say("Piece marks"), shown.marks, (marks) => arrangement.show({ marks })),
      check("screws", say("Screws"), shown.screws, (screws) => arrangement.show({ screws })),
      check("pins", say("Finding pins"), shown.pins, (pins) => arrangement.show({ pins }))),
    make("label", { class: "tw-slide", for: "tw-lift" }, make("span", { text: say("Lift the layers apart") }),
      make("input", { type: "range", min: 0, max: 100, value: arrangement.lift * 100, id: "tw-lift", oninput: lifted })));
}

// Puts the checks as the view is now.
export function showNow({ view: { arrangement, looks }, sheet }) {
  const states = { panels: arrangement.panelsSeen, apart: looks.apart, marks: arrangement.shown.marks };
  for (const [name, on] of Object.entries(states)) sheet.querySelector(`[data-show=${name}]`).checked = on;
}
