// The sheet of findings: what was measured, the limit, where it comes from, what to do.

import { button, make } from "trimwright/common/elements.js";
import { counted, say } from "trimwright/common/words.js";
import { SEVERITIES, plainName, severityHeading, severitySign, severityWord } from "trimwright/read/severity.js";

const MOST_MARKS = 6; // of a finding, in the list

// about: a finding's number, the numbers of several that are pinned in one place, or nothing for all.
export function findingsSheet(app, about) {
  const { findings } = app.data;
  if (Array.isArray(about)) {
    const here = findings.filter((one) => about.includes(one.number));
    return list(app, here, counted("{count} finding here", "{count} findings here", { count: here.length }));
  }
  const one = findings.find((finding) => finding.number === about);
  return one ? detail(app, one) : list(app, findings, say("Findings"));
}

// The blocks of a list: [{heading, findings}]: by severity, then those that the scene accepts.
export function grouped(findings) {
  const open = findings.filter((one) => !one.accepted), accepted = findings.filter((one) => one.accepted);
  const groupOf = new Map(findings.map((one) => [one.group, one]));
  const root = (one) => (one.cause && groupOf.get(one.cause)) || one;
  const blocks = SEVERITIES.map((severity) => [severity, open.filter((one) => root(one).severity === severity)])
    .filter(([, some]) => some.length)
    .map(([severity, some]) =>
      ({ heading: severityHeading(severity, open.filter((one) => one.severity === severity).length), findings: some }));
  const heading = counted("{count} accepted, with a reason", "{count} accepted, each with a reason", { count: accepted.length });
  return accepted.length ? [...blocks, { heading, findings: accepted }] : blocks;
}

function list(app, findings, title) {
  const el = make("div", {}, terms(app.data.terms), grouped(findings).map((block) => blockOf(app, block)));
  if (!findings.length) el.append(make("p", { class: "tw-lead", text: say("Nothing found: the layout keeps to every rule of its set.") }));
  el.append(make("p",
    { class: "tw-quiet",
      text: say("Wind and structural figures are advice: the local code, the metal's maker and licensed practice decide.") }));
  if (findings.length < app.data.findings.length) el.append(button(say("All findings"), () => app.open("findings"), { class: "tw-plain" }));
  return { title, el };
}

// Findings of one group together, in their order; those of one group alone each by itself.
export function alike(findings) {
  if (new Set(findings.map((one) => one.group)).size < 2) return findings.map((one) => [one]);
  const groups = new Map();
  for (const one of findings) groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  return [...groups.values()];
}

// By which rules it was checked, what the scene changed of them and why, and what was not looked at.
function terms(sentences) {
  return make("ul", { class: "tw-terms tw-quiet" }, sentences.map((text) => make("li", { text })));
}

function blockOf(app, { heading, findings }) {
  const rows = alike(findings).map((some) => {
    const [one] = some, several = some.length > 1;
    const row = button("", () => app.open("findings", several ? some.map((each) => each.number) : one.number, { focus: true }),
      { class: "tw-row" });
    const pieces = [...new Set(some.flatMap((each) => each.pieces))];
    const wheres = [...new Set(some.map((each) => each.where))];
    const says = several
      ? counted("{count} finding: {marks}", "{count} findings: {marks}",
        { count: some.length, marks: few(pieces.length ? pieces : wheres) })
      : [few(pieces), one.where].filter(Boolean).join(", ");
    const where = make("span", { class: "tw-quiet", text: says });
    row.append(severitySign(one), make("span", { class: "tw-row-text" }, make("b", { text: plainName(one.rule) }), where));
    return make("li", { class: one.cause ? "tw-follows" : "" }, row);
  });
  return make("div", { class: "tw-block" }, make("h3", { text: heading }), make("ul", { class: "tw-rows" }, rows));
}

// A handful of marks; of more than that, how many.
export function few(marks) {
  if (marks.length <= MOST_MARKS) return marks.join(", ");
  const shown = MOST_MARKS - 2;
  return say("{marks} and {more} more", { marks: marks.slice(0, shown).join(", "), more: marks.length - shown });
}

function detail(app, one) {
  const facts = [
    [say("Measured"), one.measured],
    [say("Limit"), one.limit],
    [say("Limit from"), one.source],
    [say("Trust"), one.trust],
    [say("Instead of"), one.insteadOf],
    [say("Reason"), one.reason],
    [say("Accepted because"), one.accepted],
  ].filter(([, value]) => value);
  const el = make("div", { class: "tw-finding" },
    make("p", { class: "tw-finding-says", text: one.message }),
    make("p", { text: one.why }),
    make("div", { class: "tw-remedy" }, make("b", { text: say("Do this") }), make("p", { text: one.remedy }), changePlace(app, one)),
    make("dl", { class: "tw-facts" },
      facts.map(([name, value]) => make("div", {}, make("dt", { text: name }), make("dd", { text: value })))),
    make("div", { class: "tw-chips" },
      one.pieces.map((mark) => button(mark, () => app.choose(mark, { focus: true }), { class: "tw-chip" }))),
    neighbors(app, one),
    button(say("All findings"), () => app.open("findings"), { class: "tw-plain" }));
  app.tell(say("Finding {number}, {severity}: {message}",
    { number: one.number, severity: severityWord(one.severity), message: one.message }));
  return { title: [severitySign(one), make("span", { text: plainName(one.rule) })], el, shown: () => goTo(app, one) };
}

// Changes of the scene that were tried: the finding is gone with them, and nothing is worse. A host that knows them only
// later gives app.changes, a function of a finding, and calls showChanges when it has new ones.
export function showChanges(app) {
  for (const place of app.sheet.querySelectorAll(".tw-change")) {
    fill(app, place, app.data.findings.find((one) => one.number === Number(place.dataset.finding)));
  }
}

function changePlace(app, one) {
  const place = make("div", { class: "tw-change", "data-finding": one.number });
  fill(app, place, one);
  return place;
}

function fill(app, place, one) {
  const change = (app.changes ? app.changes(one) : one?.change) ?? [];
  place.replaceChildren(...(change.length ? [
    make("p", { class: "tw-quiet", text: say("In the scene, tried: the finding is gone with it, and nothing is worse.") }),
    make("ul", {}, change.map((text) => make("li", {}, make("code", { text })))),
    ...(app.doThis ? [button(say("Make this change"), () => app.doThis(one), { class: "tw-main" })] : []),
  ] : []));
}

function neighbors(app, one) {
  const { findings } = app.data;
  const at = findings.indexOf(one);
  const to = (text, way, look) =>
    button(text, () => app.open("findings", findings[at + way].number), { disabled: !findings[at + way], class: look });
  return make("div", { class: "tw-pair" }, to(say("Finding before"), -1, ""), to(say("Next finding"), 1, "tw-main"));
}

// A finding stands on its pieces, however far the roof is set.
function goTo({ view, data }, one) {
  view.arrangement.setStep(data.steps.length);
  view.arrangement.select(one.pieces[0] ?? null);
  view.viewpoints.lookAtPoint(one.point, one.pieces[0]);
}
