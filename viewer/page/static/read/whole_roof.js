// The sheet about the whole roof: what it takes, where the short pieces land, where to look from, what to show.

import { button, make } from "trimwright/common/elements.js";
import { screenBlock } from "trimwright/read/screen_brightness.js";
import { tag } from "trimwright/read/tag.js";

const opened = new Set(); // groups of view points that are open: they stay so when the sheet is made anew

const group = (name, count, chips) => make("details", { open: opened.has(name), ontoggle: (event) => (event.target.open ? opened.add(name) : opened.delete(name)) }, make("summary", { text: `${name} (${count})` }), chips);

const counted = (n, one, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

export function roofSheet(app) {
  const { data, view } = app;
  const short = data.pieces.filter((piece) => piece.short);
  const screws = data.screws.piece.length, panels = Object.keys(data.panels).length;
  const facts = make("p", { class: "tw-lead", text: [counted(data.pieces.length, "piece"), counted(screws, "screw"), counted(panels, "panel")].join(", ") });
  const rest = view.arrangement.step < view.arrangement.steps ? make("p", { class: "tw-flag" }, make("span", { text: `Set so far: ${view.arrangement.step} of ${view.arrangement.steps} steps. ` }), button("Show all", () => (view.arrangement.setStep(view.arrangement.steps), view.arrangement.select(null), app.open("roof")), { class: "tw-link" })) : null;
  const lands = make("div", { class: "tw-block" }, make("h3", { text: short.length ? "Where the short pieces land" : "No short piece: every length is alike" }), make("ul", { class: "tw-rows" }, short.map((piece) => make("li", {},
    button("", () => (view.viewpoints.standAt(`short piece ${piece.mark}`), app.choose(piece.mark)), { class: "tw-row" }, ),
  ))));
  [...lands.querySelectorAll(".tw-row")].forEach((row, i) => row.append(tag(short[i]), make("span", { class: "tw-row-text", text: `${short[i].run}, ${short[i].where}` }), make("b", { class: "tw-figure", text: short[i].says })));
  const groups = new Map();
  for (const place of data.views) groups.set(place.group, [...(groups.get(place.group) ?? []), place]);
  const look = make("div", { class: "tw-block" }, make("h3", { text: "Look from" }));
  for (const [name, places] of groups) {
    const chips = make("div", { class: "tw-chips" }, places.map((place) => button(nameOf(place), () => go(app, place), { class: "tw-chip", title: place.title, "aria-label": place.title })));
    look.append(name === "Whole roof" ? chips : group(name, places.length, chips));
  }
  const laps = lapsOf(data);
  if (laps.length) {
    look.append(group("Every lap", laps.length, make("div", { class: "tw-chips" }, laps.map(([over, end, text]) =>
      button(text, () => (view.arrangement.select(over.mark), view.viewpoints.lookAt(over.mark, end)), { class: "tw-chip" })))));
  }
  return { title: "Roof", el: make("div", {}, facts, rest, lands, look, showBlock(app), screenBlock(app)) };
}

function go(app, place) {
  app.view.viewpoints.standAt(place.name);
  app.say(place.note ? `${place.title}; ${place.note}` : place.title);
  if (app.current?.name === "roof") syncShow(app);
}

// The last words of a title are what tells one view of a group from the next.
function nameOf(place) {
  if (place.group === "Whole roof") return place.title;
  const apart = place.name.endsWith(" apart");
  const words = place.name.replace(/^(corner|short piece)\s*/, "").replace(/ apart$/, "").replace(/^lap /, "").replace(/^(outside|hip|ridge)-/, "$1 ");
  return apart ? `${words}, apart` : words;
}

function lapsOf(data) {
  const found = [];
  for (const piece of data.pieces) for (const end of ["low", "high"]) for (const one of piece.ends[end]) {
    if (one.kind === "lap" && one.lies === "over") found.push([piece, end, `${piece.mark} over ${one.with[0]}`]);
  }
  return found;
}

function showBlock(app) {
  const { view } = app;
  const check = (name, text, get, set) => make("label", { class: "tw-check" }, make("input", { type: "checkbox", "data-show": name, checked: get(), onchange: (event) => set(event.target.checked) }), make("span", { text }));
  const lift = make("input", { type: "range", min: 0, max: 100, value: view.arrangement.lift * 100, id: "tw-lift", oninput: (event) => view.arrangement.liftApart(event.target.value / 100) });
  return make("div", { class: "tw-block" }, make("h3", { text: "Show" }), make("div", { class: "tw-checks" },
    check("panels", "Panels", () => view.arrangement.panelsSeen, (on) => view.arrangement.showPanels(on)),
    check("apart", "Pieces told apart", () => view.looks.apart, (on) => view.arrangement.tellApart(on)),
    check("marks", "Piece marks", () => view.arrangement.shown.marks, (on) => view.arrangement.show({ marks: on })),
    check("screws", "Screws", () => view.arrangement.shown.screws, (on) => view.arrangement.show({ screws: on })),
    check("pins", "Finding pins", () => view.arrangement.shown.pins, (on) => view.arrangement.show({ pins: on })),
  ), make("label", { class: "tw-slide", for: "tw-lift" }, make("span", { text: "Lift the layers apart" }), lift));
}

function syncShow(app) {
  const states = { panels: app.view.arrangement.panelsSeen, apart: app.view.looks.apart, marks: app.view.arrangement.shown.marks };
  for (const [name, on] of Object.entries(states)) app.sheet.querySelector(`[data-show=${name}]`).checked = on;
}
