// The form: every field with its problem beside it. It is built anew only when its fields change; else values are
// put into it, but never into the field that somebody is writing in.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { inputFor } from "trimwright-app/inputs.js";
import { sketch } from "trimwright-app/sketch.js";

const SHUT = new Set(["limits", "buy", "screws", "runs", "rules", "scene"]);

export class Form {
  constructor(change) {
    this.change = change;
    this.el = make("div", { class: "tw-form" });
    this.fields = new Map();
    this.touch = 0;
    this.opened = new Map();
    this.run = null;
  }

  show(form, sizes) {
    const shape = JSON.stringify(form.sections.map(({ name, title, fields }) => [name, title, fields.map(({ value, blank, problem, reading, ...rest }) => rest)]));
    if (shape !== this.shape) this.build(form.sections);
    this.shape = shape;
    for (const section of form.sections) for (const one of section.fields) this.put(one);
    if (this.drawing) this.drawing.hidden = !sizes;
    if (sizes) this.draw(sizes);
    this.warn(form.sections.filter(({ fields }) => fields.some((one) => one.problem)));
  }

  // Marks the boxes that have a problem in them, and opens those that have a new one.
  warn(wrong) {
    const boxes = new Set(wrong.map(boxOf));
    for (const [name, mark] of this.marks) mark.hidden = !boxes.has(name);
    for (const section of wrong) {
      const box = this.boxes.get(boxOf(section));
      if (box && !this.warned?.has(section.name)) box.open = true;
    }
    this.warned = new Set(wrong.map(({ name }) => name));
  }

  build(sections) {
    const active = document.activeElement?.dataset?.path;
    for (const [name, box] of this.boxes ?? []) this.opened.set(name, box.open);
    this.fields.clear();
    this.boxes = new Map();
    this.marks = new Map();
    const runs = sections.filter((section) => section.group === "runs");
    const parts = [];
    for (const section of sections) {
      if (section.group) continue;
      const body = make("div", { class: "tw-fields" }, section.name === "roof" ? (this.drawing = make("figure", { class: "tw-sketch" })) : null, section.fields.map((one) => this.field(one)));
      if (section.name === "screws" && runs.length) parts.push(this.box("runs", say("Single runs"), this.runs(runs)));
      parts.push(this.box(section.name, section.title, body));
    }
    this.el.replaceChildren(...parts);
    this.sizes = null;
    if (active) this.el.querySelector(`[data-path='${CSS.escape(active)}']`)?.focus({ preventScroll: true });
  }

  box(name, title, body) {
    const mark = make("span", { class: "tw-form-mark", text: "!", title: say("something here cannot be read"), hidden: true });
    const box = make("details", { class: "tw-form-box", "data-section": name, open: this.opened.get(name) ?? !SHUT.has(name) }, make("summary", {}, make("span", { text: title }), mark), body);
    this.boxes.set(name, box);
    this.marks.set(name, mark);
    return box;
  }

  // Runs that differ from their kind of edge: one at a time, chosen by name.
  runs(sections) {
    const named = sections.map((section) => section.title);
    if (!named.includes(this.run)) this.run = named[0];
    const groups = new Map(sections.map((section) => [section.title, make("div", { class: "tw-fields", hidden: section.title !== this.run }, section.fields.map((one) => this.field(one)))]));
    this.pickRun = (run) => {
      this.run = pick.value = run;
      for (const [name, group] of groups) group.hidden = name !== run;
    };
    const pick = make("select", { class: "tw-input", "aria-label": say("Run"), onchange: () => this.pickRun(pick.value) }, named.map((name) => make("option", { value: name, text: name, selected: name === this.run })));
    return make("div", {}, make("p", { class: "tw-quiet", text: say("What one run has otherwise than its kind of edge; left empty, it is the same.") }), pick, [...groups.values()]);
  }

  field(one) {
    const path = JSON.stringify(one.path), id = `field ${one.path.join(" ")}`.replaceAll(/[^A-Za-z0-9]+/g, "-");
    const props = { id, "data-path": path, "data-kind": one.kind, "aria-describedby": `${id}-says`, autocomplete: "off", spellcheck: "false" };
    const input = inputFor(one, props, this);
    const problem = make("p", { class: "tw-problem", id: `${id}-says`, hidden: true });
    const reading = make("p", { class: "tw-hint tw-reading", hidden: true });
    const hint = one.hint ? make("p", { class: "tw-hint", text: one.hint }) : null;
    const tick = one.kind === "check" || one.kind === "here";
    const row = make("div", { class: `tw-field tw-field-${one.kind}` }, make("label", { for: id, text: one.label }), input.el, problem, reading, hint);
    if (tick) row.prepend(input.el);
    const dim = one.path[0] === "roof" ? one.path.at(-1) : null;
    row.addEventListener("focusin", () => this.light(dim));
    row.addEventListener("focusout", () => this.light(null));
    this.fields.set(path, { ...input, row, problem, reading });
    return row;
  }

  put(one) {
    const field = this.fields.get(JSON.stringify(one.path));
    if (!field) return;
    field.set(one);
    const fresh = one.problem && field.problem.hidden && field.row.contains(document.activeElement);
    field.problem.hidden = !one.problem;
    field.problem.textContent = one.problem;
    this.read(field.reading, one);
    field.row.classList.toggle("tw-wrong", Boolean(one.problem));
    field.control.setAttribute("aria-invalid", String(Boolean(one.problem)));
    if (fresh) field.row.scrollIntoView({ block: "nearest" });
  }

  // Says of what has not arrived at the server that it has not.
  late(paths) {
    for (const path of paths) {
      const { problem } = this.fields.get(JSON.stringify(path)) ?? {};
      if (!problem) continue;
      problem.hidden = false;
      problem.textContent = say("Not arrived yet: it is sent again.");
    }
  }

  // Tells what a bare number is read as, and asks where that cannot be meant.
  read(line, one) {
    const { says, ask, meant } = one.reading ?? {};
    line.hidden = !says;
    line.classList.toggle("tw-flag", Boolean(ask));
    line.replaceChildren(...(says ? [makeText(says)] : []), ...(ask ? [" ", button(ask, () => this.send(one, meant), { class: "tw-link" })] : []));
  }

  // Opens where a field stands, and goes to it.
  reveal(section, one) {
    const box = this.boxes.get(boxOf(section));
    if (box) box.open = true;
    if (section.group) this.pickRun(section.title);
    const { control, row } = this.fields.get(JSON.stringify(one.path)) ?? {};
    row?.scrollIntoView({ block: "center" });
    control?.focus({ preventScroll: true });
  }

  send(one, value, touch) {
    this.change(one.path, value, touch);
  }

  draw(sizes) {
    const text = JSON.stringify(sizes);
    if (text === this.sizes || !this.drawing) return;
    this.sizes = text;
    this.drawing.replaceChildren(sketch(sizes));
    this.light(this.lit ?? null);
  }

  // Lights up the dimension that is being changed.
  light(dim) {
    this.lit = dim;
    for (const one of this.drawing?.querySelectorAll("[data-dim]") ?? []) one.classList.toggle("tw-lit", one.dataset.dim.split(" ").includes(dim));
  }
}

const makeText = (text) => make("span", { text });

const boxOf = ({ group, name }) => group || name;
