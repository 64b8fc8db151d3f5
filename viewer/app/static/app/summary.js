// The slip over the view: the short piece, the findings and what to buy, always in sight; and what keeps the roof from
// being drawn, each a step away from where it is put right.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const MOST_FIELDS = 3, MOST_LINES = 5; // that are told at once

export class Summary {
  constructor(workspace) {
    this.workspace = workspace;
    this.el = make("div", { class: "tw-slip", role: "group", "aria-label": say("In short") });
  }

  show() {
    const { state, host } = this.workspace, lines = [...(state.current ? [] : this.held()), ...this.rows()];
    // What says the same stays, so that no tap or key goes to what an answer took away.
    const text = JSON.stringify([state.summary, ...lines.map((line) => line.outerHTML)]);
    if (text !== this.text) this.el.replaceChildren(...lines);
    this.text = text;
    host.classList.toggle("tw-is-held", !state.current && !state.mended);
  }

  rows() {
    const { state: { summary }, roof } = this.workspace;
    if (!summary) return [];
    const shortest = () => (summary.mark ? roof.select(summary.mark) : roof.open("roof"));
    return [
      rowOf(say("Short piece"), summary.short, shortest),
      rowOf(say("Findings"), summary.findings, () => roof.open("findings"), summary.errors ? "tw-is-error" : ""),
      rowOf(say("To buy"), summary.buy, () => roof.open("buy")),
    ];
  }

  held() {
    const { state, reveal, revealOutline } = this.workspace;
    const { form: { loose, sections }, outline } = state;
    const wrong = sections.flatMap((section) => section.fields.filter((one) => one.problem).map((one) => [section, one]));
    const fields = wrong.slice(0, MOST_FIELDS).map(([section, one]) =>
      button(say("{section}: {field}", { section: section.title, field: one.label }), () => reveal(section, one),
        { class: "tw-held-field" }));
    return [
      make("p", { class: "tw-held", text: whyHeld(state) }),
      ...(outline?.problem
        ? [button(say("Roof: the outline"), revealOutline, { class: "tw-held-field" }),
          make("p", { class: "tw-held-why", text: outline.problem })] : []),
      ...fields,
      ...loose.slice(0, MOST_LINES).map((text) => make("p", { class: "tw-held-why", text })),
    ];
  }
}

function whyHeld({ number, drawn, mended }) {
  if (mended) return say("All is drawn but what cannot be read, which is as it was before. To put right:");
  if (!number) return say("Nothing can be drawn yet. To put right:");
  if (drawn) return say("The roof is drawn, but its findings and lists are those of one before. To put right:");
  return say("The view holds the last roof that could be read. To put right:");
}

function rowOf(label, text, open, look = "") {
  const one = button("", open, { class: `tw-slip-row ${look}` });
  one.append(make("span", { class: "tw-slip-name", text: label }), make("b", { text }));
  return one;
}
