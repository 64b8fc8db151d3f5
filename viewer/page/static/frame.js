// The frame round the view: title, tools, dock and the sheet that everything is read on. Hosts mount it once and
// load roofs into it: const roof = mountRoof(element); await roof.load(data); roof.select("R1-2"); roof.setStep(4) ...

import { button, keepingPlace, make } from "trimwright/common/elements.js";
import { ICONS, icon, iconButton } from "trimwright/common/icons.js";
import { lengthWriter } from "trimwright/common/lengths.js";
import { counted, say } from "trimwright/common/words.js";
import { cautionSheet } from "trimwright/read/cautions.js";
import { findingsSheet } from "trimwright/read/findings.js";
import { finishSheet } from "trimwright/read/finish.js";
import { lookBar, lookOn, takeLook } from "trimwright/read/looks.js";
import { cardSheet } from "trimwright/read/piece_card.js";
import { piecesSheet } from "trimwright/read/piece_list.js";
import { pinFindings } from "trimwright/read/pins.js";
import { watchScreen } from "trimwright/read/screen_brightness.js";
import { orderSheet } from "trimwright/read/setting_order.js";
import { SEVERITIES } from "trimwright/read/severity.js";
import { roofSheet } from "trimwright/read/whole_roof.js";
import { RoofView } from "trimwright/seen/roof_view.js";
import { toolbar } from "trimwright/tools/toolbar.js";

const DOCK = {
  roof: [() => say("Roof"), ICONS.look],
  pieces: [() => say("Pieces"), ICONS.pieces],
  order: [() => say("Setting"), ICONS.order],
  findings: [() => say("Findings"), ICONS.findings],
  finish: [() => say("Finish"), ICONS.finish],
};
const SHEETS = { roof: roofSheet, pieces: piecesSheet, piece: cardSheet, order: orderSheet, findings: findingsSheet, finish: finishSheet,
  cautions: cautionSheet };
const WIDE = matchMedia("(min-width: 860px), (min-width: 560px) and (max-height: 520px)"); // room for a sheet beside the view
const READ_FOR = 5000; // milliseconds that a panel's words stay

// sheets: a host's own, put before the others in the dock: {name: {text, icon, maker: (app, about) => {title, el}}}.
export function mountRoof(host, { sheets = {} } = {}) {
  const own = Object.entries(sheets);
  const makers = { ...SHEETS, ...Object.fromEntries(own.map(([name, { maker }]) => [name, maker])) };
  const parts = buildParts(host);
  const { title, stage, caution, dock, sheet } = parts;
  const view = new RoofView(stage);
  const app = appOf(host, view, makers, parts);
  const tools = toolbar(app), bar = lookBar(app);
  stage.after(tools, bar);
  watchScreen(app);
  watchWidth(app);
  caution.addEventListener("click", () => app.open("cautions", undefined, { focus: true }));
  sheet.querySelector(".tw-shut").addEventListener("click", () => app.close());
  for (const [name, { text, icon: path }] of own) dock.append(dockButton(app, name, text, path));
  for (const [name, [text, path]] of Object.entries(DOCK)) dock.append(dockButton(app, name, text(), path));
  listen(app, tools);
  return {
    view, app,
    async load(data) {
      await view.load(data);
      app.length = lengthWriter(data.tape);
      title.textContent = data.title;
      pinFindings(app);
      bar.write();
      badge(dock, data.findings.filter((one) => !one.accepted));
      const { name, about } = app.current ?? {};
      if (name && !makers[name]) return; // what a host or a tool put there stays as it is
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

function buildParts(host) {
  host.classList.add("tw");
  const hint = say("Roof in three dimensions. Arrow keys turn it, plus and minus come nearer or go back, Home shows it from the street. The list under Pieces reads out every piece.");
  const stage = make("div", { tabindex: "0", role: "application", "aria-label": hint, class: "tw-stage-place" });
  const title = make("h1", { class: "tw-title" });
  const caution = button("", null, { class: "tw-caution-button" });
  caution.append(icon(ICONS.caution), make("span", { text: say("Cautions") }));
  const head = make("header", { class: "tw-head" }, title, caution);
  const prompt = make("div", { class: "tw-prompt", hidden: true });
  const heading = make("h2", { class: "tw-sheet-title", tabindex: "-1" });
  const body = make("div", { class: "tw-sheet-body" });
  const shut = iconButton("close", say("Close"), null, { class: "tw-icon-button tw-shut" });
  const sheet = make("section", { class: "tw-sheet", hidden: true }, make("div", { class: "tw-sheet-head" }, heading, shut), body);
  const dock = make("nav", { class: "tw-dock", "aria-label": say("Sheets") });
  const said = make("div", { class: "tw-said", role: "status", "aria-live": "polite" });
  const skip = make("div", { class: "tw-skip" }, button(say("Skip to the sheet"), () => heading.focus()));
  host.append(skip, head, stage, prompt, dock, sheet, said);
  return { title, stage, caution, prompt, heading, body, sheet, dock, said };
}

// What sheets and tools work with: the view, its data, the sheet that is open, and ways to open, tell and ask.
function appOf(host, view, makers, { stage, prompt, heading, body, sheet, dock, said }) {
  const app = {
    host, view, stage, sheet: body,
    wide: () => WIDE.matches,
    // Opens a sheet; what it needs to know comes with it, such as a piece's mark.
    open: (name, about, { focus = false } = {}) => app.put(name, () => makers[name](app, about), about, focus),
    // Puts a sheet that somebody makes: {title, el, shown?, leave?, kept?}. One that is kept is the same each time: put
    // again, it stays where somebody is in it.
    put(name, maker, about, focus = false) {
      const same = app.current?.name === name, again = same && app.current.kept;
      if (!again) app.current?.leave?.();
      const made = maker();
      app.current = { name, about, ...made };
      heading.replaceChildren(...[made.title].flat());
      const lay = () => body.replaceChildren(made.el);
      if (made.el.parentNode !== body) same ? keepingPlace(body, lay) : lay(); // what is written in keeps its cursor
      sheet.hidden = false;
      if (!again) body.scrollTop = 0;
      sheet.dataset.sheet = name;
      host.classList.add("tw-open");
      press(dock, made.part ?? name);
      made.shown?.();
      if (focus) heading.focus({ preventScroll: true });
    },
    close() {
      if (app.wide()) return app.open("roof");
      app.current?.leave?.();
      app.current = null;
      sheet.hidden = true;
      host.classList.remove("tw-open");
      press(dock, null);
    },
    // Tells it to who hears rather than sees the page.
    tell: (text) => (said.textContent = text),
    // Asks for taps on the roof, over it; with nothing to ask, the words go away.
    ask(text, done) {
      prompt.hidden = !text;
      prompt.replaceChildren(...(text ? [make("span", { text }), button(say("Done"), done, { class: "tw-small" })] : []));
    },
    choose(mark, options) {
      view.arrangement.select(mark);
      app.open("piece", mark, options);
    },
  };
  return Object.defineProperty(app, "data", { get: () => view.data, enumerable: true });
}

function press(dock, name) {
  for (const one of dock.children) one.setAttribute("aria-pressed", String(one.dataset.sheet === name));
}

function dockButton(app, name, text, path) {
  const act = () => (app.current?.name === name && !app.wide() ? app.close() : app.open(name, undefined, { focus: true }));
  const one = button("", act, { "aria-pressed": "false", "data-sheet": name });
  one.append(icon(path), make("span", { text }));
  return one;
}

// How many findings are open, on their button, in the color of the worst of them.
function badge(dock, findings) {
  const one = dock.querySelector("[data-sheet=findings]"), count = findings.length;
  const worst = SEVERITIES.find((severity) => findings.some((finding) => finding.severity === severity));
  one.querySelector(".tw-badge")?.remove();
  if (count) one.append(make("span",
    { class: `tw-badge tw-is-${worst}`, text: count, role: "img", "aria-label": counted("{count} open", "{count} open", { count }) }));
}

function watchWidth(app) {
  const arrange = () => app.host.classList.toggle("tw-wide", app.wide());
  WIDE.addEventListener("change", () => {
    arrange();
    if (app.wide() && !app.current && app.data) app.open("roof");
  });
  arrange();
}

function listen(app, tools) {
  const { host, view } = app;
  view.addEventListener("pick", ({ detail }) => {
    if (host.classList.contains("tw-full")) return; // somebody looks at the whole of it
    if (detail?.mark) app.open("piece", detail.mark);
    else if (detail?.kind === "pan") readPanel(app, detail.name);
    else if (app.current?.name === "piece") app.close();
    host.dispatchEvent(new CustomEvent("pick", { detail }));
  });
  host.addEventListener("keydown", (event) => {
    const by = { PageDown: 1, PageUp: -1 }[event.key];
    if (by && app.data?.looks?.length && (host.classList.contains("tw-full") || app.current?.name === "finish")) {
      event.preventDefault();
      takeLook(app, lookOn(app) + by);
    }
    if (event.key === "Escape" && !tools.leaveFull() && !tools.layDown()) app.close();
  });
}

function readPanel(app, name) {
  const { length, width } = app.data.panels[name];
  const text = say("Panel {name}: {length} long, covers {width}", { name, length, width });
  app.ask(text, () => app.ask(null));
  app.tell(text);
  clearTimeout(app.panelRead);
  app.panelRead = setTimeout(() => app.ask(null), READ_FOR);
}
