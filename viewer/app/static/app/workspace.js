// The workspace: the roof's view with a form beside it. What it shows comes from the server: the form's state with every
// word told, the view fetched when its number has changed, and of it only the parts that did.

import { button, make } from "trimwright/common/elements.js";
import { icon, iconButton } from "trimwright/common/icons.js";
import { mountRoof } from "trimwright/frame.js";
import { Form } from "trimwright-app/form.js";
import { buySheet, compareSheet, fileSheet, textSheet } from "trimwright-app/sheets.js";

const BROAD = matchMedia("(min-width: 1120px)");
const SAID = 6000; // milliseconds that a word of success stays
const SIGNS = {
  form: "M4 5h9M4 12h5M4 19h11M17 3v4M13 10v4M19 17v4",
  buy: "M3 5h3l3 11h9l2-8H7M10 20.500v.01M17 20.500v.01",
  file: "M5 3h9l5 5v13H5zM14 3v5h5",
  undo: "M8 5 4 9l4 4M4 9h10a6 6 0 0 1 0 12h-3",
  redo: "M16 5l4 4-4 4M20 9H10a6 6 0 0 0 0 12h3",
};

export function mountWorkspace(host, act) {
  const workspace = { state: {}, before: {}, act, seen: 0, shown: 0, parts: {} };
  const form = new Form((path, value, touch) => act({ do: "change", path, value, touch }));
  workspace.form = form;
  const roof = mountRoof(host, {
    sheets: [
      ["form", "Form", SIGNS.form, () => ({ title: "Form", el: form.el })],
      ["buy", "Buy", SIGNS.buy, () => buySheet(workspace)],
    ],
  });
  workspace.roof = roof;
  workspace.open = (name) => roof.app.put(name, () => OTHERS[name](workspace), undefined, true);

  const undo = iconButton("close", "Undo", () => act({ do: "undo" })), redo = iconButton("close", "Redo", () => act({ do: "redo" }));
  undo.replaceChildren(icon(SIGNS.undo));
  redo.replaceChildren(icon(SIGNS.redo));
  const file = button("", () => workspace.open("file"), { class: "tw-file-button" });
  const name = make("span", { class: "tw-file-name" });
  file.append(icon(SIGNS.file), name);
  const commands = make("div", { class: "tw-commands", role: "group", "aria-label": "Scene" }, undo, redo, file);
  host.querySelector(".tw-caution-button").before(commands);

  const slip = make("div", { class: "tw-slip", role: "group", "aria-label": "In short" });
  const notice = make("div", { class: "tw-notice", role: "status", "aria-live": "polite", hidden: true });
  const aside = make("section", { class: "tw-aside", "aria-label": "Form" });
  host.append(slip, notice, aside);

  function arrange() {
    host.classList.toggle("tw-broad", BROAD.matches);
    if (BROAD.matches) {
      if (roof.app.current?.name === "form") roof.app.open("roof");
      if (form.el.parentNode !== aside) aside.append(form.el);
    } else if (roof.app.current?.name === "form") roof.app.open("form");
  }
  BROAD.addEventListener("change", arrange);
  arrange();

  addEventListener("keydown", (event) => {
    const typing = event.target.matches?.("input:not([type=checkbox], [type=color]), textarea");
    if (!(event.ctrlKey || event.metaKey) || typing) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y" && key !== "s") return;
    event.preventDefault();
    act({ do: key === "s" ? "save" : key === "y" || event.shiftKey ? "redo" : "undo" });
  });

  // Says something over the view; what is not an error goes away by itself.
  function words(text, kind = "") {
    clearTimeout(workspace.said);
    if (text && !kind) workspace.said = setTimeout(() => words(""), SAID);
    notice.hidden = !text;
    notice.className = `tw-notice ${kind}`;
    notice.replaceChildren(...(text ? [make("span", { text }), button("Close", () => words(""), { class: "tw-notice-shut" })] : []));
  }

  function summarize() {
    const { summary, current, drawn, number, form: { loose, sections } } = workspace.state;
    const row = (label, text, open, mark = "") => {
      const one = button("", open, { class: `tw-slip-row ${mark}` });
      one.append(make("span", { class: "tw-slip-name", text: label }), make("b", { text }));
      return one;
    };
    const rows = summary ? [
      row("Short piece", summary.short, () => (summary.mark ? roof.select(summary.mark) : roof.open("roof"))),
      row("Findings", summary.findings, () => roof.open("findings"), summary.errors ? "tw-is-error" : ""),
      row("To buy", summary.buy, () => roof.open("buy")),
    ] : [];
    const wrong = sections.flatMap((section) => section.fields.filter((one) => one.problem).map((one) => [section, one]));
    const held = current ? [] : [make("p", { class: "tw-held", text: `${!number ? "Nothing can be drawn yet" : drawn ? "The roof is drawn, but its findings and lists are those of one before" : "The view holds the last roof that could be read"}. To put right:` }),
      ...wrong.slice(0, 3).map(([section, one]) => button(`${section.title}: ${one.label}`, () => reveal(section, one), { class: "tw-held-field" })),
      ...loose.slice(0, 5).map((line) => make("p", { class: "tw-held-why", text: line }))];
    slip.replaceChildren(...held, ...rows);
    host.classList.toggle("tw-is-held", !current);
  }

  function reveal(section, one) {
    if (!BROAD.matches) roof.open("form");
    form.reveal(section, one);
  }

  // Whether the server has more of the roof than what is here: another drawing, or the rest of this one.
  function owed() {
    const { number, whole } = workspace.state;
    return number > workspace.seen || (whole && number === workspace.seen && number > workspace.shown);
  }

  // Fetches what changed of the view: what is seen first, then the rest. While one is under way, the next waits, and
  // only the latest is fetched.
  async function show() {
    if (workspace.fetching) return;
    workspace.fetching = true;
    try {
      while (owed()) {
        const got = await fetch(`/workspace/${workspace.state.key}/view${workspace.seen ? "" : "?all=true"}`);
        if (!got.ok) return;
        const { number, whole, parts } = await got.json();
        Object.assign(workspace.parts, parts);
        await lay(whole);
        workspace.seen = host.dataset.seen = number;
        if (whole) workspace.shown = host.dataset.shown = number;
        else requestAnimationFrame(() => requestAnimationFrame(() => act({ do: "drawn" })));
      }
    } catch (error) {
      console.error(error);
      words("The view could not be fetched; it comes again with the next change.", "tw-is-error");
    } finally {
      workspace.fetching = false;
    }
  }

  // Loads the view, and with the whole answer the sheets; keeps the step, the chosen piece and the place on the sheet.
  async function lay(whole) {
    const { view, app } = roof, { parts } = workspace;
    const { step, steps, selected } = view.arrangement, sheet = app.current?.name, top = app.sheet.scrollTop;
    const cards = new Map(parts.cards?.map((card) => [card.mark, card]));
    const data = { findings: [], ...parts, pieces: parts.pieces.map((piece) => ({ ...piece, ...cards.get(piece.mark) })), views: [...parts.views, ...(parts.close ?? [])] };
    await (whole ? roof.load(data) : view.load(data));
    if (steps !== undefined && step < steps) view.arrangement.setStep(Math.min(step, view.arrangement.steps));
    else if (selected && view.pieces.has(selected)) view.arrangement.select(selected);
    if (app.current?.name === sheet) app.sheet.scrollTop = top;
    arrange();
  }

  // While the server is away nothing can be written: it would be lost.
  const watch = () => {
    window.socket.on("disconnect", () => (form.el.inert = true));
    window.socket.on("connect", () => (form.el.inert = false));
  };

  workspace.told = (values) => {
    if (!workspace.watched && window.socket) (workspace.watched = true), watch();
    if (values.refused) return words(values.refused, "tw-is-error");
    if (values.said) return words(values.said);
    if (values.over) return Object.assign(workspace, { over: values.over, why: values.why }), workspace.open("file");
    workspace.state = values;
    show().then(put); // the view first: the form can wait for it
  };

  // Puts the state beside the view.
  function put() {
    const { state, before } = workspace;
    if (state === before) return;
    workspace.before = state;
    if (state.name !== before.name || state.number !== before.number) workspace.over = null; // asked about another scene
    if (state.key !== before.key) history.replaceState(null, "", `?work=${state.key}`);
    name.textContent = `${state.name}${state.unsaved ? " *" : ""}`;
    file.setAttribute("aria-label", `File: ${state.name}${state.unsaved ? ", not saved" : ""}`);
    undo.disabled = !state.undo;
    redo.disabled = !state.redo;
    host.classList.toggle("tw-is-waiting", state.waiting);
    form.show(state.form, state.sizes);
    summarize();
    const open = roof.app.current?.name;
    if (open === "buy" && state.whole) refill("buy");
    if (open === "file" && filed(state) !== filed(before)) refill("file");
    host.dataset.told = String(Number(host.dataset.told ?? 0) + 1);
  }

  function refill(which) {
    const top = roof.app.sheet.scrollTop;
    if (which === "buy") roof.open("buy");
    else if (!roof.app.sheet.contains(document.activeElement) || document.activeElement.tagName !== "INPUT") roof.app.put("file", () => fileSheet(workspace));
    roof.app.sheet.scrollTop = top;
  }

  workspace.words = words;
  return workspace;
}

const filed = ({ name, unsaved, files, begin, unfinished }) => JSON.stringify([name, unsaved, files, begin, unfinished]); // what the file sheet shows

const OTHERS = { file: fileSheet, compare: compareSheet, text: textSheet };
