// The sheet of files: saving, opening, what was left unfinished, what to begin with, and what can be had as a file.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { address, chooser } from "trimwright-app/asking.js";
import { block } from "trimwright-app/blocks.js";
import { putText } from "trimwright-app/text_sheet.js";
import { valueOf } from "trimwright-app/told_fields.js";

const LARGEST = 1_000_000; // bytes of a scene's text

export function fileSheet(workspace) {
  const { state } = workspace;
  return { title: say("File"), el: make("div", { class: "tw-file" },
    savingBlock(workspace),
    block(say("Open"), names(workspace, state.files, "open", say("No scene in the working folder yet.")), uploadRow(workspace)),
    state.unfinished.length > 0 && unfinishedBlock(workspace),
    block(say("Begin with"), names(workspace, state.begin, "begin")),
    block(say("Compare"), button(say("Ways to lay out the lengths, side by side"), () => workspace.open("compare"), { class: "tw-chip" })),
    downloadBlock(workspace)) };
}

function savingBlock(workspace) {
  const { state, act, over, why } = workspace;
  const proposed = over ?? (state.files.includes(state.name) ? state.name : sceneName(titleOf(state)));
  const name = make("input", { type: "text", class: "tw-input", value: proposed, "aria-label": say("Name to save as"), maxlength: 80 });
  const save = (what) => {
    workspace.over = null;
    act({ do: "save", ...what });
  };
  const ask = () =>
    make("p", { class: "tw-flag" }, make("span", { text: why }), " ",
      button(say("Replace it"), () => save({ name: over, over: true }), { class: "tw-link" }));
  return block(state.unsaved ? say("Not saved: {name}; a working copy is kept", state) : say("Saved: {name}", state),
    make("div", { class: "tw-pair" },
      button(say("Save"), () => save(state.files.includes(state.name) ? {} : { name: name.value }), { class: "tw-main" }),
      button(say("As text"), () => workspace.open("text"), { class: "tw-plain" })),
    make("div", { class: "tw-save-as" }, name, button(say("Save as"), () => save({ name: name.value }), { class: "tw-chip" })),
    over && ask()); // a name that is asked about before its file is replaced
}

// What nobody has saved yet is called by its title.
const titleOf = (state) => valueOf(state, "title") || state.name;

function unfinishedBlock({ state, act }) {
  const rows = state.unfinished.map(({ key, name, gist, changed }) => make("li", { class: "tw-unfinished" },
    make("div", { class: "tw-unfinished-what" },
      button(name, () => act({ do: "resume", key }), { class: "tw-link" }),
      make("p", { class: "tw-quiet", text: [gist, when(changed)].filter(Boolean).join(" · ") })),
    button(say("Throw away"), () => act({ do: "discard", key }),
      { class: "tw-chip", "aria-label": say("Throw away the working copy of {name}", { name }) })));
  return block(say("Left unfinished"), make("ul", { class: "tw-rows" }, rows));
}

const when = (seconds) =>
  new Date(seconds * 1000).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" });

function names({ act }, all, what, none) {
  if (!all.length) return make("p", { class: "tw-quiet", text: none });
  return make("div", { class: "tw-chips" }, all.map((name) => button(name, () => act({ do: what, name }), { class: "tw-chip" })));
}

const uploadRow = (workspace) =>
  chooser(say("From this device"), ".toml,text/plain", (file) => upload(workspace, file), say("A scene from this device"));

async function upload(workspace, file) {
  const refused = () => say("More than {most} bytes; a scene is a short text file.", { most: LARGEST });
  if (file.size > LARGEST) return workspace.notify(refused(), "tw-is-error");
  return putText(workspace, await file.arrayBuffer(), sceneName(file.name));
}

// The name that a file from elsewhere gets here.
export function sceneName(file) {
  const plain = file.replace(/\.toml$/i, "").normalize("NFC").replaceAll(/[^\p{L}\p{M}\p{N} _.'-]+/gu, "-");
  return plain.replace(/^[^\p{L}\p{N}]+/u, "").replaceAll(/\.{2,}/g, ".") || "scene";
}

// While something cannot be read, only the text can be had: all else would be of another roof.
function downloadBlock(workspace) {
  const { state } = workspace;
  const files = state.downloads.map(([end, title, says]) => download(address(workspace, `file/${end}`), title, says));
  const text = download(address(workspace, "text"), say("Scene"), say("the text, comments and all"));
  const refused = make("p",
    { class: "tw-flag", text: say("Something in the form cannot be read. Put it right, then page, packet and lists can be had.") });
  const rows = state.current ? [...files, text] : [text];
  return block(say("Download"), !state.current && refused, make("ul", { class: "tw-rows" }, rows.map((row) => make("li", {}, row))));
}

export function download(href, title, says) {
  const text = make("span", { class: "tw-row-text" }, make("b", { text: title }), make("span", { class: "tw-quiet", text: says }));
  return make("a", { class: "tw-row tw-download", href, download: "" }, text);
}
