// What sheets of the app are made of: blocks under a heading, and tables.

import { make } from "trimwright/common/elements.js";

export const block = (title, ...kids) => make("div", { class: "tw-block" }, make("h3", { text: title }), ...kids);

// fields: headings; rows: texts; right: which columns are figures.
export function table({ fields, rows, right = [] }) {
  const side = (i) => (right[i] ? "tw-figure tw-right" : null);
  const head = make("tr", {}, fields.map((text, i) => make("th", { scope: "col", text, class: side(i) })));
  const body = rows.map((row) =>
    make("tr", {}, row.map((text, i) => make(i ? "td" : "th", { scope: i ? null : "row", text, class: side(i) }))));
  return make("div", { class: "tw-table-box", tabindex: "0", role: "group" },
    make("table", { class: "tw-table" }, make("thead", {}, head), make("tbody", {}, body)));
}
