// The sheets of the workspace beside those of the roof: files, what to buy, starting rules side by side, the text.

import { button, make } from "trimwright/common/elements.js";

const when = (seconds) => new Date(seconds * 1000).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

const block = (title, ...kids) => make("div", { class: "tw-block" }, make("h3", { text: title }), ...kids);

export function fileSheet(workspace) {
  const { state, act } = workspace;
  const name = make("input", { type: "text", class: "tw-input", value: workspace.over ?? state.name, "aria-label": "Name to save as", maxlength: 80 });
  const save = (what) => ((workspace.over = null), act({ do: "save", ...what }));
  const taken = workspace.over; // a name that is asked about before its file is replaced
  const over = taken ? make("p", { class: "tw-flag" }, make("span", { text: `${workspace.why} ` }), button("Replace it", () => save({ name: taken, over: true }), { class: "tw-link" })) : null;
  const file = make("input", { type: "file", accept: ".toml,text/plain", class: "tw-upload", "aria-label": "A scene from this device", onchange: () => file.files[0] && upload(workspace, file.files[0]) });
  const chips = (names, what) => make("div", { class: "tw-chips" }, names.map((one) => button(one, () => act({ do: what, name: one }), { class: "tw-chip" })));
  const unfinished = state.unfinished.length ? block("Left unfinished", make("ul", { class: "tw-rows" }, state.unfinished.map((one) => make("li", { class: "tw-unfinished" },
    make("div", { class: "tw-unfinished-what" },
      button(one.name, () => act({ do: "resume", key: one.key }), { class: "tw-link" }),
      make("p", { class: "tw-quiet", text: [one.gist, when(one.changed)].filter(Boolean).join(" · ") })),
    button("Throw away", () => act({ do: "discard", key: one.key }), { class: "tw-chip", "aria-label": `Throw away the working copy of ${one.name}` }))))) : null;
  return { title: "File", el: make("div", { class: "tw-file" },
    block(state.unsaved ? `Not saved: ${state.name}; a working copy is kept` : `Saved: ${state.name}`,
      make("div", { class: "tw-pair" }, button("Save", () => save({}), { class: "tw-main" }), button("As text", () => workspace.open("text"), { class: "tw-plain" })),
      make("div", { class: "tw-save-as" }, name, button("Save as", () => save({ name: name.value }), { class: "tw-chip" })), over),
    unfinished,
    block("Open", state.files.length ? chips(state.files, "open") : make("p", { class: "tw-quiet", text: "No scene in the working folder yet." }), make("label", { class: "tw-upload-row" }, make("span", { class: "tw-quiet", text: "or from this device" }), file)),
    block("Begin with", chips(state.begin, "begin")),
    block("Compare", button("Starting rules side by side", () => workspace.open("compare"), { class: "tw-chip" })),
    block("Download", make("ul", { class: "tw-rows" }, state.downloads.map(([end, title, says]) => make("li", {}, make("a", { class: "tw-row tw-download", href: `/workspace/${state.key}/file/${end}`, download: "" }, make("span", { class: "tw-row-text" }, make("b", { text: title }), make("span", { class: "tw-quiet", text: says })))))),
      make("a", { class: "tw-row tw-download", href: `/workspace/${state.key}/text`, download: "" }, make("span", { class: "tw-row-text" }, make("b", { text: "Scene" }), make("span", { class: "tw-quiet", text: "the text, comments and all" })))),
  ) };
}

async function put(workspace, text, name) {
  const query = name ? `?name=${encodeURIComponent(name)}` : "";
  const got = await fetch(`/workspace/${workspace.state.key}/text${query}`, { method: "PUT", body: text });
  if (got.ok) return workspace.words("");
  const { problem } = await got.json().catch(() => ({ problem: "the server does not answer" }));
  workspace.words(problem, "tw-is-error");
  return problem;
}

async function upload(workspace, file) {
  if (file.size > 1_000_000) return workspace.words("more than 1,000,000 bytes; a scene is a short text file", "tw-is-error");
  return put(workspace, await file.arrayBuffer(), file.name.replace(/\.toml$/i, "").replaceAll(/[^A-Za-z0-9 _.-]+/g, "-").replace(/^[^A-Za-z0-9]+/, "") || "scene");
}

export function textSheet(workspace) {
  const area = make("textarea", { class: "tw-text", spellcheck: "false", autocomplete: "off", "aria-label": "The scene's text, TOML", maxlength: 1_000_000 });
  fetch(`/workspace/${workspace.state.key}/text`).then((got) => got.text()).then((text) => (area.value = text));
  return { title: "As text", el: make("div", { class: "tw-as-text" },
    make("p", { class: "tw-quiet", text: "All that a scene can say, profiles of its own, single screws and accepted findings too. It is TOML." }), area,
    make("div", { class: "tw-pair" }, button("Back", () => workspace.open("file"), { class: "tw-plain" }), button("Take this text", () => put(workspace, area.value), { class: "tw-main" }))) };
}

function table({ fields, rows, right }, act) {
  const side = (i) => (right?.[i] ? "tw-figure tw-right" : null);
  return make("div", { class: "tw-table-box", tabindex: "0", role: "group" }, make("table", { class: "tw-table" },
    make("thead", {}, make("tr", {}, fields.map((name, i) => make("th", { scope: "col", text: name, class: side(i) })), act ? make("td") : null)),
    make("tbody", {}, rows.map((row) => make("tr", {}, row.map((text, i) => make(i ? "td" : "th", { scope: i ? null : "row", text, class: side(i) })), act ? make("td", {}, act(row)) : null)))));
}

export function buySheet(workspace) {
  const { shopping } = workspace.state;
  if (!shopping) return { title: "To buy", el: make("p", { class: "tw-lead", text: "Nothing yet." }) };
  return { title: "To buy", el: make("div", {}, shopping.lists.map((list) => block(list.name, table(list), list.note ? make("p", { class: "tw-quiet", text: list.note }) : null)),
    make("div", { class: "tw-block" }, shopping.proofs.map((line) => make("p", { class: "tw-quiet", text: line })))) };
}

export function compareSheet(workspace) {
  const el = make("div", {}, make("p", { class: "tw-lead", text: "Laying out from each start…" }));
  fetch(`/workspace/${workspace.state.key}/starts`).then((got) => got.json()).then(({ problem, fields, rows, note }) => {
    if (problem) return el.replaceChildren(make("p", { class: "tw-problem", text: problem }));
    // A column for each rule, so that they stand side by side on a phone, too.
    const turned = { fields: ["", ...rows.map((row) => row[0])], rows: fields.slice(1).map((name, i) => [name, ...rows.map((row) => row[i + 1])]) };
    return el.replaceChildren(table(turned), note ? make("p", { class: "tw-quiet", text: note }) : "",
      make("h3", { class: "tw-take", text: "Begin every run by" }), make("div", { class: "tw-chips" }, rows.map(([start]) => button(start, () => workspace.act({ do: "start", start }), { class: "tw-chip" }))));
  });
  return { title: "Starting rules", el };
}
