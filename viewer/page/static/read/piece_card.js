// The card of a piece: what it is, its tape, and the work at each end, one step at a time. Made for one thumb.

import { button, make } from "trimwright/common/elements.js";
import { iconButton } from "trimwright/common/icons.js";
import { endDrawing, wholeDrawing } from "trimwright/read/flat_pattern.js";
import { tag } from "trimwright/read/tag.js";
import { tapeDrawing } from "trimwright/read/tape_drawing.js";
import { writeWork } from "trimwright/seen/notes.js";

const TABS = [["facts", "Piece"], ["tape", "Tape"], ["low", "Low end"], ["high", "High end"]];
let tab = "facts"; // stays from card to card: who works along a run reads the same thing of every piece

export function cardSheet(app, mark) {
  const piece = app.view.pieces.get(mark);
  if (!piece.ends) return { title: mark, el: make("p", { class: "tw-quiet", text: "This piece is being worked out." }) };
  const body = make("div", { class: "tw-card-body", role: "tabpanel", "aria-label": mark });
  const tabs = make("div", { class: "tw-tabs", role: "tablist", "aria-label": `About ${mark}` });
  const open = (name) => {
    tab = name;
    for (const one of tabs.children) {
      const on = one.dataset.tab === name;
      one.setAttribute("aria-selected", String(on));
      one.tabIndex = on ? 0 : -1;
    }
    app.host.classList.toggle("tw-tall", name === "low" || name === "high");
    app.view.overlay.clear("work");
    body.replaceChildren(...[PAGES[name](app, piece)].flat());
  };
  for (const [name, text] of TABS) tabs.append(button(text, () => open(name), { role: "tab", "data-tab": name }));
  tabs.addEventListener("keydown", (event) => {
    const way = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!way) return;
    const next = TABS[(TABS.findIndex(([name]) => name === tab) + way + TABS.length) % TABS.length][0];
    open(next);
    [...tabs.children].find((one) => one.dataset.tab === next).focus();
  });
  open(tab);
  const { pieces } = app.data;
  const at = pieces.findIndex((one) => one.mark === mark);
  const beside = (way, text) => iconButton(way < 0 ? "left" : "right", text, () => visit(app, pieces[at + way].mark), { disabled: !pieces[at + way] });
  const title = [tag(piece, true), make("span", { class: "tw-card-name" }, make("span", { class: "tw-card-run", text: piece.run }), make("span", { class: "tw-card-length tw-figure", text: piece.says })), beside(-1, "The piece before"), beside(1, "The next piece")];
  app.say(`${mark}, ${piece.run}, ${piece.says}${piece.short ? ", short piece" : ""}`);
  return { title, el: make("div", { class: "tw-card" }, body, tabs), leave: () => (app.host.classList.remove("tw-tall"), app.view.overlay.clear("work")) };
}

// Opens the card of a piece and looks at it; a card that opens on one of its ends looks there by itself.
export function visit(app, mark, options) {
  if (tab !== "low" && tab !== "high") app.view.viewpoints.lookAt(mark);
  app.choose(mark, options);
}

const PAGES = {
  facts: (app, piece) => [
    piece.short ? make("p", { class: "tw-flag", text: `Short piece of its run: ${piece.where}.` }) : null,
    make("dl", { class: "tw-facts" }, [
      ["Length", piece.says],
      ["Cut from", piece.left ? `${piece.stock} stock, ${piece.left} left over` : `${piece.stock} stock`],
      ["Hand", piece.hand ? `${piece.hand}, as seen from outside` : "none: a level piece or a cap"],
      ["Low end", endSays(piece.ends.low, app)],
      ["High end", endSays(piece.ends.high, app)],
      ["Screws", screwSays(piece)],
      ["Metal", piece.metal],
      ["Set", `no. ${piece.step} in order${piece.under.length ? `, over ${piece.under.join(", ")}` : ""}`],
    ].map(([name, value]) => make("div", {}, make("dt", { text: name }), make("dd", { text: value })))),
    make("figure", { class: "tw-figure-box" }, wholeDrawing(app, piece), make("figcaption", { text: `Flat pattern, painted side up. Dashed: bends.` })),
    ...app.data.findings.filter((one) => one.pieces.includes(piece.mark)).map((one) =>
      button(`${one.severity}: ${one.rule.replaceAll("-", " ")}`, () => app.open("findings", one.number), { class: `tw-link tw-is-${one.severity}` })),
  ].filter(Boolean),
  tape: (app, piece) => [
    make("p", { class: "tw-quiet", text: "Hook the tape on the low end of the blank and set the marks out before that end is cut." }),
    make("div", { class: "tw-tape-box", tabindex: "0", role: "group", "aria-label": "The piece along a tape; slide it sideways" }, tapeDrawing(app, piece)),
    ...rowsOf(piece).map(({ across, marks }, i, rows) => make("div", { class: "tw-block" },
      make("h3", { text: rows.length > 1 ? `Screws, row ${i + 1}: ${app.length(across)} from the inboard edge` : "Screws" }),
      make("ol", { class: "tw-marks" }, marks.map((at) => make("li", { class: "tw-figure", text: app.length(at) }))))),
  ],
  low: (app, piece) => endPage(app, piece, "low"),
  high: (app, piece) => endPage(app, piece, "high"),
};

// The rows of screws across a piece, each with its tape marks from the low end.
function rowsOf(piece) {
  const rows = new Map();
  for (const [at, across] of piece.screws) rows.set(across, [...(rows.get(across) ?? []), at]);
  return [...rows].map(([across, marks]) => ({ across, marks: marks.sort((a, b) => a - b) })).sort((a, b) => a.across - b.across);
}

function screwSays(piece) {
  const rows = rowsOf(piece).length;
  return rows > 1 ? `${piece.screws.length}, in ${rows} rows` : `${piece.screws.length}`;
}

function endSays(ends, app) {
  return ends.map(({ kind, lies, with: others, length }) => {
    const beside = others.length ? ` ${lies ?? "beside"} ${others.join(", ")}` : "";
    return kind === "lap" ? `laps${beside} by ${app.length(length)}` : `${kind}${beside}`;
  }).join("; ") || "plain";
}

function endPage(app, piece, end) {
  app.view.viewpoints.lookAt(piece.mark, end);
  const steps = piece.ends[end].flatMap((one) => one.steps);
  const el = make("div", { class: "tw-end" });
  let at = 0;
  const show = () => {
    const step = steps[at];
    writeWork(app.view, piece.mark, step?.lines ?? [], step?.verb);
    el.replaceChildren(
      make("div", { class: "tw-end-read" },
        step ? make("p", { class: "tw-step-count" }, make("b", { text: `Step ${at + 1} of ${steps.length}` }), make("span", { class: "tw-verb", text: step.verb }), make("span", { class: "tw-end-says", text: endSays(piece.ends[end], app) }))
          : make("p", { text: "Nothing to do at this end." }),
        step ? make("p", { class: "tw-step-text", "aria-live": "polite", text: step.text }) : null,
        endDrawing(app, piece, end, steps, at),
        make("p", { class: "tw-caution-line", text: app.data.caution }),
        make("details", {}, make("summary", { text: "All steps" }), make("ol", { class: "tw-steps" }, steps.map((one) => make("li", { text: one.text }))))),
      make("div", { class: "tw-pair" },
        button("Back", () => (at--, show()), { disabled: at === 0 }),
        button("Next step", () => (at++, show()), { class: "tw-main", disabled: at >= steps.length - 1 })),
    );
  };
  show();
  return el;
}
