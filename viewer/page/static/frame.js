// The frame round the view: title, tools, dock and the sheet that everything is read on. Hosts mount it once and
// load roofs into it: const roof = mountRoof(element); await roof.load(data); roof.select("R1-2"); roof.setStep(4) ...

import { cardSheet } from "trimwright/read/piece_card.js";
import { cutTool } from "trimwright/read/cut_through.js";
import { findingsSheet } from "trimwright/read/findings.js";
import { pinFindings } from "trimwright/read/pins.js";
import { finishSheet } from "trimwright/read/finish.js";
import { lengthWriter } from "trimwright/common/lengths.js";
import { button, make } from "trimwright/common/elements.js";
import { ICONS, icon, iconButton } from "trimwright/common/icons.js";
import { orderSheet } from "trimwright/read/setting_order.js";
import { pictureOf } from "trimwright/tools/save_picture.js";
import { piecesSheet } from "trimwright/read/piece_list.js";
import { cautionSheet } from "trimwright/read/cautions.js";
import { roofSheet } from "trimwright/read/whole_roof.js";
import { tapeTool } from "trimwright/tools/measure.js";
import { watchScreen } from "trimwright/read/screen_brightness.js";
import { RoofView } from "trimwright/seen/roof_view.js";

const DOCK = [["roof", "Roof", "look"], ["pieces", "Pieces", "pieces"], ["order", "Order", "order"], ["findings", "Findings", "findings"], ["finish", "Finish", "finish"]];
const SHEETS = { roof: roofSheet, pieces: piecesSheet, piece: cardSheet, order: orderSheet, findings: findingsSheet, finish: finishSheet, cautions: cautionSheet };
const WIDE = matchMedia("(min-width: 860px)");
const HINT = "Roof in three dimensions. Arrow keys turn it, plus and minus come nearer or go back, Home shows it from the street. The list under Pieces reads out every piece.";

// sheets: a host's own, put before the others in the dock: [name, text, path of its icon, (app, about) => {title, el}].
export function mountRoof(host, { wide = () => WIDE.matches, sheets = [] } = {}) {
  const makers = { ...SHEETS, ...Object.fromEntries(sheets.map(([name, , , maker]) => [name, maker])) };
  host.classList.add("tw");
  const stage = make("div", { tabindex: "0", role: "application", "aria-label": HINT, class: "tw-stage-place" });
  const title = make("h1", { class: "tw-title" });
  const caution = button("", () => app.open("cautions"), { class: "tw-caution-button" });
  caution.append(icon(ICONS.caution), make("span", { text: "Cautions" }));
  const head = make("header", { class: "tw-head" }, title, caution);
  const tools = make("div", { class: "tw-tools", role: "group", "aria-label": "Tools" });
  const prompt = make("div", { class: "tw-prompt", hidden: true });
  const heading = make("h2", { class: "tw-sheet-title", tabindex: "-1" });
  const shut = iconButton("close", "Close", () => app.close());
  const body = make("div", { class: "tw-sheet-body" });
  const sheet = make("section", { class: "tw-sheet", hidden: true }, make("div", { class: "tw-sheet-head" }, heading, shut), body);
  const dock = make("nav", { class: "tw-dock", "aria-label": "Sheets" });
  const said = make("div", { class: "tw-said", role: "status", "aria-live": "polite" });
  host.append(head, stage, tools, prompt, dock, sheet, said);

  const view = new RoofView(stage);
  const app = {
    host, view, stage, sheet: body,
    get data() {
      return view.data;
    },
    // Opens a sheet; what it needs to know comes with it, such as a piece's mark.
    open(name, about, { focus = false } = {}) {
      app.put(name, () => makers[name](app, about), about, focus);
    },
    // Puts a sheet that somebody makes: {title, el, shown?, leave?}.
    put(name, maker, about, focus = false) {
      app.current?.leave?.();
      const made = maker();
      app.current = { name, about, ...made };
      heading.replaceChildren(...[made.title].flat());
      if (made.el.parentNode !== body) body.replaceChildren(made.el); // a form that is written in keeps its cursor
      sheet.hidden = false;
      body.scrollTop = 0;
      sheet.dataset.sheet = name;
      host.classList.add("tw-open");
      for (const one of dock.children) one.setAttribute("aria-pressed", String(one.dataset.sheet === (name === "piece" ? "pieces" : name)));
      made.shown?.();
      if (focus) heading.focus({ preventScroll: true });
    },
    close() {
      if (wide()) return app.open("roof");
      app.current?.leave?.();
      app.current = null;
      sheet.hidden = true;
      host.classList.remove("tw-open");
      for (const one of dock.children) one.setAttribute("aria-pressed", "false");
      return null;
    },
    say(text) {
      said.textContent = text;
    },
    // Asks for taps on the roof, over it; with nothing to ask, the words go away.
    ask(text, done) {
      prompt.hidden = !text;
      prompt.replaceChildren(...(text ? [make("span", { text }), button("Done", done, { class: "tw-small" })] : []));
    },
    choose(mark, options) {
      view.arrangement.select(mark);
      app.open("piece", mark, options);
    },
    wide,
  };
  watchScreen(app);
  host.classList.toggle("tw-wide", wide());
  WIDE.addEventListener("change", () => {
    host.classList.toggle("tw-wide", wide());
    if (wide() && !app.current && app.data) app.open("roof");
  });

  for (const [name, text, picture] of [...sheets, ...DOCK]) {
    const one = button("", () => (app.current?.name === name && !wide() ? app.close() : app.open(name, undefined, { focus: true })), { "aria-pressed": "false", "data-sheet": name });
    one.append(icon(ICONS[picture] ?? picture), make("span", { text }));
    dock.append(one);
  }
  const tape = tapeTool(app), cut = cutTool(app);
  const toggles = { tape: iconButton("tape", "Tape: measure between two points", () => use(tape)), cut: iconButton("cut", "Cut through: see the layers", () => use(cut)) };
  tools.append(
    iconButton("whole", "Whole roof", () => (view.viewpoints.standAt(view.data.views[0].name), app.say("The whole roof, from the street"))),
    toggles.tape, toggles.cut,
    iconButton("picture", "Save this picture", () => savePicture(app)),
  );
  let inUse = null;
  // Takes a tool up, or lays it down when it is in use; null lays down whatever is.
  function use(tool) {
    const again = inUse === tool;
    inUse?.stop();
    inUse = again ? null : tool;
    inUse?.start(() => use(tool));
    toggles.tape.setAttribute("aria-pressed", String(inUse === tape));
    toggles.cut.setAttribute("aria-pressed", String(inUse === cut));
  }

  app.use = use;
  view.addEventListener("resize", () => {
    const from = stage.getBoundingClientRect(), box = tools.getBoundingClientRect();
    view.overlay.keepOff = [[box.left - from.left, box.top - from.top, box.right - from.left, box.bottom - from.top]];
  });
  view.addEventListener("tap", (event) => inUse && (event.preventDefault(), inUse.tap(event.detail)));
  view.addEventListener("pick", ({ detail }) => {
    if (detail?.mark) app.open("piece", detail.mark);
    else if (detail?.kind === "pan") app.say(panelSays(app, detail.name));
    else if (app.current?.name === "piece") app.close();
    host.dispatchEvent(new CustomEvent("pick", { detail }));
  });
  host.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    if (inUse) use(inUse);
    else app.close();
  });

  return {
    view, app,
    async load(data) {
      await view.load(data);
      app.length = lengthWriter(data.tape);
      title.textContent = data.title;
      pinFindings(app);
      const errors = data.findings.filter((one) => !one.accepted).length;
      const badge = dock.querySelector("[data-sheet=findings]");
      badge.querySelector(".tw-badge")?.remove();
      if (errors) badge.append(make("span", { class: "tw-badge", text: errors, "aria-label": `, ${errors} open` }));
      const { name, about } = app.current ?? {};
      if (name && !makers[name]) return; // what a host put there stays as it is
      app.open(name === "piece" && !view.pieces.has(about) ? "pieces" : (name ?? "roof"), about);
    },
    select: (mark) => (mark ? app.choose(mark) : view.arrangement.select(null)),
    setStep: (n) => view.arrangement.setStep(n),
    standAt: (name) => view.viewpoints.standAt(name),
    lookAt: (mark, end) => view.viewpoints.lookAt(mark, end),
    setLook: (look) => view.setLook(look),
    open: app.open,
  };
}

function panelSays(app, name) {
  const panel = app.data.panels[name];
  const text = `Panel ${name}: ${panel.length} long, covers ${panel.width}`;
  app.ask(text, () => app.ask(null));
  clearTimeout(app.panelSaid);
  app.panelSaid = setTimeout(() => app.ask(null), 5000);
  return text;
}

async function savePicture(app) {
  const where = app.view.viewpoints.current?.title;
  const blob = await pictureOf(app.view, where ? `${app.data.title} · ${where}` : app.data.title);
  const link = make("a", { href: URL.createObjectURL(blob), download: `${app.data.title.replace(/[^\p{L}\p{N}]+/gu, "-")}.png` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  app.say("Picture saved");
}
