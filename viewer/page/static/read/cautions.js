// The sheet of cautions.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

export function cautionSheet(app) {
  const points = app.data.cautions.map((text) => make("li", { text }));
  return { title: say("Cautions"), el: make("div", { class: "tw-cautions" }, make("ul", {}, points)) };
}
