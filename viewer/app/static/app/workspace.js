// The workspace: the roof's view with a form beside it. What it shows comes from the server: the state with every word
// told, the view fetched when its number has changed.

import { button, make } from "trimwright/common/elements.js";
import { icon, iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";
import { mountRoof } from "trimwright/frame.js";
import { showChanges } from "trimwright/read/findings.js";
import { buySheet } from "trimwright-app/buy_sheet.js";
import { compareSheet } from "trimwright-app/compare_sheet.js";
import { Edits } from "trimwright-app/edits.js";
import { ViewFetcher } from "trimwright-app/fetching.js";
import { fileSheet } from "trimwright-app/file_sheet.js";
import { Form } from "trimwright-app/form.js";
import { lightSide, sideUnder } from "trimwright-app/outline_light.js";
import { Summary } from "trimwright-app/summary.js";
import { offerSheet } from "trimwright-app/offer_sheet.js";
import { photoSheet } from "trimwright-app/photo_sheet.js";
import { sellSheet } from "trimwright-app/sell_sheet.js";
import { textSheet } from "trimwright-app/text_sheet.js";

const BROAD = matchMedia("(min-width: 1240px)");
const READ_FOR = 6000; // milliseconds that a word of success stays
const SIGNS = {
  form: "M4 5h9M4 12h5M4 19h11M17 3v4M13 10v4M19 17v4",
  sell: "M3 4h12v16H3zM7 9h4M7 13h4M12 18l8-9 2 2-8 9-3 1z",
  buy: "M3 5h3l3 11h9l2-8H7M10 20.500v.01M17 20.500v.01",
  file: "M5 3h9l5 5v13H5zM14 3v5h5",
  undo: "M8 5 4 9l4 4M4 9h10a6 6 0 0 1 0 12h-3",
  redo: "M16 5l4 4-4 4M20 9H10a6 6 0 0 0 0 12h3",
};
// Beside those in the dock.
const SHEETS = { file: fileSheet, compare: compareSheet, offer: offerSheet, photo: photoSheet, text: textSheet };

export function mountWorkspace(host, act) {
  const workspace = { host, act, state: {}, before: {} };
  const form = new Form((path, value, touch) => edits.send({ do: "change", path, value, touch }), {
    edit: (what) => edits.send({ ...what, do: "outline" }),
    open: (what) => edits.send({ ...what, do: "opening" }),
    light: (side) => workspace.roof && lightSide(workspace, side),
    written: () => edits.written,
  });
  const edits = new Edits(act, (paths) => form.late(paths));
  const roof = mountRoof(host, { sheets: docked(workspace, form) });
  roof.app.keeping = {
    use: (look) => act({ ...look, do: "finish" }),
    save: (name, look) => act({ ...look, do: "look", name }),
    remove: (number) => act({ do: "unlook", number }),
  };
  const commands = commandsOf(workspace), notice = noticeOf(workspace);
  const aside = make("section", { class: "tw-aside", "aria-label": say("Sizes and choices") });
  const summary = new Summary(workspace);
  const fetcher = new ViewFetcher(workspace);
  Object.assign(workspace, {
    form, roof, fetcher, edits,
    open: (name) => roof.app.put(name, () => SHEETS[name](workspace), undefined, true),
    arrange: () => arrange(workspace, aside),
    told: (values) => told(workspace, values),
    ...ways(workspace),
    put: () => put(workspace, commands, summary),
  });
  Object.assign(roof.app, {
    changes: (one) => (workspace.state.number === fetcher.shown ? workspace.state.changes?.[one?.group] : null),
    doThis(one) {
      act({ do: "remedy", group: one.group, number: workspace.state.number });
      roof.open("findings"); // the finding is going to be another one's number
    },
  });
  host.querySelector(".tw-caution-button").before(commands.el);
  host.append(summary.el, notice, aside);
  host.addEventListener("pick", ({ detail }) => pointOut(workspace, detail?.mark));
  BROAD.addEventListener("change", workspace.arrange);
  workspace.arrange();
  watchKeys(act);
  return workspace;
}

// The sheets that are opened from the dock.
function docked(workspace, form) {
  const sizes = () => ({ title: say("Sizes and choices"), el: form.el, kept: true, leave: () => form.outline.attend(false) });
  return {
    form: { text: say("Sizes"), icon: SIGNS.form, maker: sizes },
    sell: { text: say("Sell"), icon: SIGNS.sell, maker: () => sellSheet(workspace) },
    buy: { text: say("Buy"), icon: SIGNS.buy, maker: () => buySheet(workspace) },
  };
}

// Ways into the form, wherever it is: to a field, to the first field of a part, to the outline.
function ways(workspace) {
  const shown = () => {
    if (!BROAD.matches) workspace.roof.open("form");
    return workspace.form;
  };
  const reveal = (section, one) => shown().reveal(section, one);
  const revealPart = (name) => {
    const section = workspace.state.form.sections.find((one) => one.name === name);
    reveal(section, section.fields[0]);
  };
  return { reveal, revealPart, revealOutline: () => shown().revealOutline() };
}

// Undo, redo, and the file's name, which opens its sheet.
function commandsOf(workspace) {
  const step = (what, text) => {
    const one = iconButton("close", text, () => workspace.act({ do: what }));
    one.replaceChildren(icon(SIGNS[what]));
    return one;
  };
  const undo = step("undo", say("Undo")), redo = step("redo", say("Redo"));
  const name = make("span", { class: "tw-file-name" });
  const file = button("", () => workspace.open("file"), { class: "tw-file-button" });
  file.append(icon(SIGNS.file), name);
  const el = make("div", { class: "tw-commands", role: "group", "aria-label": say("Scene") }, undo, redo, file);
  return { el, undo, redo, file, name };
}

// Gives the workspace notify(text, kind), which says something over the view; what is no error goes away by itself.
function noticeOf(workspace) {
  const notice = make("div", { class: "tw-notice", role: "status", "aria-live": "polite", hidden: true });
  let timer;
  workspace.notify = (text, kind = "") => {
    clearTimeout(timer);
    if (text && !kind) timer = setTimeout(() => workspace.notify(""), READ_FOR);
    notice.hidden = !text;
    notice.className = `tw-notice ${kind}`;
    const shut = () => button(say("Close"), () => workspace.notify(""), { class: "tw-notice-shut" });
    notice.replaceChildren(...(text ? [make("span", { text }), shut()] : []));
  };
  return notice;
}

function arrange({ host, roof, form }, aside) {
  host.classList.toggle("tw-broad", BROAD.matches);
  const inForm = roof.app.current?.name === "form";
  if (BROAD.matches) {
    if (inForm) roof.app.open("roof");
    if (form.el.parentNode !== aside) aside.append(form.el);
  } else if (inForm) roof.app.open("form");
}

function watchKeys(act) {
  addEventListener("keydown", (event) => {
    const typing = event.target.matches?.("input:not([type=checkbox], [type=color]), textarea");
    if (!(event.ctrlKey || event.metaKey) || typing) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y" && key !== "s") return;
    event.preventDefault();
    act({ do: key === "s" ? "save" : key === "y" || event.shiftKey ? "redo" : "undo" });
  });
}

// Takes what the server tells: a refusal, a word of success, a question, or the state.
function told(workspace, values) {
  watchServer(workspace);
  if (values.refused) return workspace.notify(values.refused, "tw-is-error");
  if (values.said) return workspace.notify(values.said);
  if (values.over) {
    Object.assign(workspace, { over: values.over, why: values.why });
    return workspace.open("file");
  }
  workspace.edits.heard(values.heard);
  workspace.state = values;
  workspace.fetcher.show().then(workspace.put); // the view first: the form can wait for it
}

// While the server is away nothing can be written: it would be lost.
function watchServer(workspace) {
  if (workspace.watched || !window.socket) return;
  workspace.watched = true;
  window.socket.on("disconnect", () => {
    workspace.form.el.inert = true;
    workspace.edits.tell();
  });
  window.socket.on("connect", () => {
    workspace.form.el.inert = false;
    workspace.edits.again();
  });
}

// Puts the state beside the view.
function put(workspace, { undo, redo, file, name }, summary) {
  const { state, before, host, form, roof } = workspace;
  if (state === before) return;
  workspace.before = state;
  if (state.name !== before.name || state.number !== before.number) workspace.over = null; // asked about another scene
  if (state.key !== before.key) history.replaceState(null, "", `?work=${state.key}`);
  name.textContent = state.unsaved ? say("{name} *", state) : state.name;
  file.setAttribute("aria-label", state.unsaved ? say("File: {name}, not saved", state) : say("File: {name}", state));
  undo.disabled = !state.undo;
  redo.disabled = !state.redo;
  host.classList.toggle("tw-is-waiting", state.waiting);
  form.show(state);
  summary.show();
  showChanges(roof.app);
  const open = roof.app.current?.name;
  if (open === "buy" && state.whole) refill(roof, () => roof.open("buy"));
  if (open === "sell") refill(roof, () => roof.open("sell"));
  if (open === "file" && filed(state) !== filed(before) && !isWriting(roof.app.sheet)) {
    refill(roof, () => roof.app.put("file", () => fileSheet(workspace)));
  }
  host.dataset.told = String(Number(host.dataset.told ?? 0) + 1);
}

function refill({ app: { sheet } }, open) {
  const top = sheet.scrollTop;
  open();
  sheet.scrollTop = top;
}

// Where the plan is in sight beside the view, what is picked on the roof is chosen in it.
function pointOut(workspace, mark) {
  const { form: { outline }, roof, state } = workspace;
  const side = mark && state.outline && inSight(outline.el) && sideUnder(workspace, roof.view.pieces.get(mark)?.run);
  if (side) outline.choose({ side });
}

const inSight = (el) => Boolean(el.offsetParent);

const isWriting = (sheet) => sheet.contains(document.activeElement) && document.activeElement.tagName === "INPUT";

// What the file sheet shows.
const filed = ({ name, unsaved, current, files, begin, unfinished }) => JSON.stringify([name, unsaved, current, files, begin, unfinished]);
