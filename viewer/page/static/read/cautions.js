// The sheet of cautions.

import { make } from "trimwright/common/elements.js";

export function cautionSheet(app) {
  const points = app.data.cautions.replace(/^Cautions: /, "").split(/(?<=[;.])\s+/);
  return { title: "Cautions", el: make("div", { class: "tw-cautions" }, make("ul", {}, points.map((text) => make("li", { text: text.replace(/;$/, ".").replace(/^./, (letter) => letter.toUpperCase()) })))) };
}
