// The sheet about the whole roof: what it takes, where the short pieces land, where to look from, what to show.

import { button, make } from "trimwright/common/elements.js";
import { counted, say } from "trimwright/common/words.js";
import { screenBlock } from "trimwright/read/screen_brightness.js";
import { showBlock, showNow } from "trimwright/read/show.js";
import { tag } from "trimwright/read/tag.js";

const GROUPS = { "short piece": () => say("Short pieces"), lap: () => say("Laps"), corner: () => say("Corners") };
const opened = new Set(); // groups of view points that are open: they stay so when the sheet is made anew

export function roofSheet(app) {
  return { title: say("Roof"),
    el: make("div", {}, facts(app), unset(app), shortPieces(app), lookFrom(app), showBlock(app), screenBlock(app)) };
}

function facts({ data }) {
  const words = [
    counted("{count} piece", "{count} pieces", { count: data.pieces.length }),
    counted("{count} screw", "{count} screws", { count: data.screws.piece.length }),
    counted("{count} panel", "{count} panels", { count: Object.keys(data.panels).length }),
  ];
  return make("p", { class: "tw-lead", text: words.join(", ") });
}

// That not all is set, and a way to have it so.
function unset(app) {
  const { step, steps } = app.view.arrangement;
  if (step === steps) return null;
  const all = () => {
    app.view.arrangement.setStep(steps);
    app.view.arrangement.select(null);
    app.open("roof");
  };
  const words = make("span", { text: say("Set so far: {step} of {steps} steps.", { step, steps }) });
  return make("p", { class: "tw-flag" }, words, " ", button(say("Show all"), all, { class: "tw-link" }));
}

function shortPieces(app) {
  const short = app.data.pieces.filter((piece) => piece.short);
  const rows = short.map((piece) => {
    const { mark, called: run, where, says } = piece;
    const row = button("", () => visitShort(app, mark), { class: "tw-row" });
    row.append(tag(piece), make("span", { class: "tw-row-text", text: say("{run}, {where}", { run, where }) }),
      make("b", { class: "tw-figure", text: says }));
    return make("li", {}, row);
  });
  const heading = rows.length ? say("Where the short pieces land") : say("No short piece: every length is alike");
  return make("div", { class: "tw-block" }, make("h3", { text: heading }), make("ul", { class: "tw-rows" }, rows));
}

function visitShort(app, mark) {
  const { name } = app.data.views.find(({ group, highlight }) => group === "short piece" && highlight.includes(mark)) ?? {};
  app.view.viewpoints.standAt(name);
  app.choose(mark);
}

function lookFrom(app) {
  const groups = new Map();
  for (const one of app.data.views) groups.set(one.group, [...(groups.get(one.group) ?? []), one]);
  const el = make("div", { class: "tw-block" }, make("h3", { text: say("Look from") }));
  for (const [name, some] of groups) {
    const chips = some.map((one) => button(one.title, () => go(app, one), { class: "tw-chip" }));
    el.append(name === "roof" ? make("div", { class: "tw-chips" }, chips) : folded(name, GROUPS[name](), chips));
  }
  const laps = lapsOf(app);
  if (laps.length) el.append(folded("laps", say("Every lap"), laps));
  return el;
}

// Chips under a heading that opens.
function folded(name, text, chips) {
  const remember = (event) => (event.target.open ? opened.add(name) : opened.delete(name));
  const summary = make("summary", { text: say("{group} ({count})", { group: text, count: chips.length }) });
  return make("details", { open: opened.has(name), ontoggle: remember }, summary, make("div", { class: "tw-chips" }, chips));
}

function go(app, viewpoint) {
  app.view.viewpoints.standAt(viewpoint.name);
  app.tell(viewpoint.note ? say("{title}; {note}", viewpoint) : viewpoint.title);
  if (app.current?.name === "roof") showNow(app);
}

function lapsOf({ data, view }) {
  return data.pieces.flatMap((piece) => ["low", "high"].flatMap((end) => {
    const { lap } = piece.ends[end];
    if (lap?.lies !== "over") return [];
    const look = () => (view.arrangement.select(piece.mark), view.viewpoints.lookAt(piece.mark, end));
    return [button(say("{mark} over {other}", { mark: piece.mark, other: lap.with }), look, { class: "tw-chip" })];
  }));
}
