// The sheet of findings: what was measured, the limit, where it comes from, what to do.

import { button, make } from "trimwright/common/elements.js";
import { SIGNS, plainName } from "trimwright/read/severity.js";

const KINDS = [["error", "Errors"], ["warning", "Warnings"], ["note", "Notes"]];

// about: a finding's number, the numbers of several that are pinned in one place, or nothing for all.
export function findingsSheet(app, about) {
  const { findings } = app.data;
  if (Array.isArray(about)) return list(app, findings.filter((one) => about.includes(one.number)), `${about.length} findings here`);
  const one = findings.find((finding) => finding.number === about);
  return one ? detail(app, one) : list(app, findings, "Findings");
}

function list(app, findings, title) {
  const open = findings.filter((one) => !one.accepted), accepted = findings.filter((one) => one.accepted);
  const el = make("div", {});
  for (const [severity, heading] of KINDS) {
    const some = open.filter((one) => one.severity === severity);
    if (some.length) el.append(block(app, `${heading} (${some.length})`, some));
  }
  if (accepted.length) el.append(block(app, `Accepted, with a reason (${accepted.length})`, accepted));
  if (!findings.length) el.append(make("p", { class: "tw-lead", text: "Nothing found: the layout keeps to every rule of its set." }));
  el.append(make("p", { class: "tw-quiet", text: "Wind and structural figures are advice: the local code, the metal's maker and licensed practice decide." }));
  if (findings.length < app.data.findings.length) el.append(button("All findings", () => app.open("findings"), { class: "tw-plain" }));
  return { title, el };
}

function block(app, heading, some) {
  return make("div", { class: "tw-block" }, make("h3", { text: heading }), make("ul", { class: "tw-rows" }, some.map((one) => {
    const row = button("", () => app.open("findings", one.number, { focus: true }), { class: "tw-row" });
    row.append(sign(one), make("span", { class: "tw-row-text" }, make("b", { text: plainName(one.rule) }), make("span", { class: "tw-quiet", text: [few(one.pieces), one.where].filter(Boolean).join(", ") })));
    return make("li", {}, row);
  })));
}

// A handful of marks; of more than that, how many.
function few(marks) {
  return marks.length > 6 ? `${marks.slice(0, 4).join(", ")} and ${marks.length - 4} more` : marks.join(", ");
}

function sign(one) {
  return make("span", { class: `tw-sign tw-is-${one.severity}`, role: "img", "aria-label": one.severity, text: SIGNS[one.severity] });
}

function detail(app, one) {
  const { findings } = app.data;
  const at = findings.indexOf(one);
  const to = (way) => button(way < 0 ? "Before" : "Next finding", () => app.open("findings", findings[at + way].number), { disabled: !findings[at + way], class: way > 0 ? "tw-main" : "" });
  const facts = [
    ["Measured", one.measured], ["Limit", one.limit], ["Limit from", one.source], ["Trust", one.trust],
    ["Limit set by the scene", one.reason], ["Accepted because", one.accepted],
  ].filter(([, value]) => value);
  const el = make("div", { class: "tw-finding" },
    make("p", { class: "tw-finding-says", text: one.message }),
    make("p", { class: "tw-remedy" }, make("b", { text: "Do this: " }), one.remedy),
    make("dl", { class: "tw-facts" }, facts.map(([name, value]) => make("div", {}, make("dt", { text: name }), make("dd", { text: value })))),
    make("div", { class: "tw-chips" }, one.pieces.map((mark) => button(mark, () => app.choose(mark, { focus: true }), { class: "tw-chip" }))),
    make("div", { class: "tw-pair" }, to(-1), to(1)),
    button("All findings", () => app.open("findings"), { class: "tw-plain" }));
  app.say(`Finding ${one.number}, ${one.severity}: ${one.message}`);
  return {
    title: [sign(one), make("span", { text: plainName(one.rule) })], el,
    shown: () => {
      app.view.arrangement.setStep(app.data.steps.length); // a finding stands on its pieces, however far the roof is set
      app.view.arrangement.select(one.pieces[0] ?? null);
      app.view.viewpoints.lookAtPoint(one.point, one.pieces[0]);
    },
  };
}
