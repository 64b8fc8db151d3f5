// The form: every field with its problem beside it. It is built anew only when its fields change; else values are
// put into it, but never into the field that somebody is writing in, nor over what is still on its way to the server.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { cornerRow, openingRows, plainGroup, porchBox, tapedBox } from "trimwright-app/form_groups.js";
import { inputFor } from "trimwright-app/inputs.js";
import { OutlineField } from "trimwright-app/outline.js";
import { sketch } from "trimwright-app/sketch.js";

const SHUT = new Set(["limits", "buy", "screws", "runs", "rules", "scene", "taped"]);
const OPENINGS_AFTER = 3; // fields of the house, after which its doors and windows stand
const BOX_OF = { sides: "roof", corners: "roof", openings: "house" }; // what stands in the box of something else

export class Form {
  // change: (path, value, touch) => … writes a value; edit: (what) => … changes an outline; open: (what) => … doors and
  // windows; light: (side) => … shows a side; written: () => … what has not arrived, {path as JSON: value}.
  constructor(change, { edit, open, light, written }) {
    Object.assign(this, { change, edit, open, written });
    this.outline = new OutlineField({ send: edit, change, light, released: () => this.later && this.show(this.later) });
    this.el = make("div", { class: "tw-form" });
    this.fields = new Map();
    this.touch = 0;
    this.opened = new Map();
    this.lost = new Set();
    this.run = null;
  }

  show(state) {
    this.later = this.outline.held ? state : null;
    if (this.later) return;
    const { form, sizes, outline, survey, key } = state;
    const shape = JSON.stringify([form.porches, key, Boolean(outline)]) + JSON.stringify(form.sections.map(({ name, title, fields }) =>
      [name, title, fields.map(({ value, blank, problem, reading, ...rest }) => rest)]));
    if (shape !== this.shape) this.keepingSight(() => this.outline.keepingPlace(() => this.build(form, key, Boolean(outline))));
    this.shape = shape;
    const written = this.written();
    for (const section of form.sections) for (const one of section.fields) this.put(one, written.get(JSON.stringify(one.path)));
    if (this.drawing) this.drawing.hidden = !sizes || Boolean(outline);
    if (sizes) this.draw(sizes);
    if (outline) this.outline.show(outline);
    this.surveyed?.(survey ?? []);
    this.warn(form.sections.filter(({ fields }) => fields.some((one) => one.problem)));
  }

  // What is made anew is scrolled as it was; but to a door, a window or a porch that was just put in.
  keepingSight(change) {
    const room = this.el.closest(".tw-sheet-body, .tw-aside"), top = room?.scrollTop;
    change();
    if (room) room.scrollTop = top;
    const added = this.added && [...this.boxes.get(this.added).querySelectorAll(".tw-porch")].at(-1);
    added?.scrollIntoView({ block: "start" });
    this.added = null;
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

  build({ sections, porches }, key, outlined) {
    const active = document.activeElement?.dataset?.path, writing = this.fields.get(active);
    for (const [name, box] of this.boxes ?? []) this.opened.set(name, box.open);
    this.fields.clear();
    this.boxes = new Map();
    this.marks = new Map();
    this.surveyed = null;
    const grouped = Map.groupBy(sections, ({ group }) => group), of = (group) => grouped.get(group) ?? [];
    const runs = of("runs"), parts = [];
    for (const section of of("")) {
      if (section.name === "screws" && runs.length) parts.push(this.box("runs", say("Single runs"), this.runs(runs)));
      parts.push(this.box(section.name, section.title, this.body(section, of, outlined)));
      if (section.name !== "roof") continue;
      if (porches) parts.push(this.box("porches", say("Porches"), porchBox(this, of("porches"), outlined)));
      parts.push(this.box("taped", say("Taped on the roof"), tapedBox(this, of("taped"), key)));
    }
    this.el.replaceChildren(...parts);
    this.sizes = null;
    if (writing?.control.matches("[type=text]")) this.keep(active, writing);
    if (active) this.el.querySelector(`[data-path='${CSS.escape(active)}']`)?.focus({ preventScroll: true });
  }

  // Takes a field over as it was, with the text and the keys in it.
  keep(path, field) {
    const made = this.fields.get(path);
    if (!made?.control.matches("[type=text]")) return;
    made.row.replaceWith(field.row);
    this.fields.set(path, field);
  }

  // The fields of a section; those of the roof with its drawing or, where the roof is over an outline, with its plan.
  body({ name, fields }, of, outlined) {
    const rows = fields.map((one) => this.field(one));
    if (name === "house") rows.splice(OPENINGS_AFTER, 0, openingRows(this, of("openings")));
    if (name !== "roof") return make("div", { class: "tw-fields" }, rows);
    this.drawing = make("figure", { class: "tw-sketch" });
    const [title, form, ...rest] = rows;
    if (!outlined) return make("div", { class: "tw-fields" }, title, form, this.drawing, rest);
    const named = (sections, keyOf, make) => new Map(sections.map((section) => [keyOf(section.name), make(section)]));
    this.outline.take(
      named(of("sides"), (side) => Number(side.split(".")[1]), ({ fields: own }) => plainGroup(this, own)),
      named(of("corners"), (corner) => corner.split(".").slice(1).join(","), (section) => cornerRow(this, section)));
    return make("div", { class: "tw-fields" }, title, form, this.outline.el, rest);
  }

  box(name, title, body) {
    const mark = make("span", { class: "tw-form-mark", text: "!", title: say("something here cannot be read"), hidden: true });
    const box = make("details", { class: "tw-form-box", "data-section": name, open: this.opened.get(name) ?? !SHUT.has(name) },
      make("summary", {}, make("span", { text: title }), mark), body);
    this.boxes.set(name, box);
    this.marks.set(name, mark);
    return box;
  }

  // Runs that differ from their kind of edge: one at a time, chosen by name.
  runs(sections) {
    const named = sections.map((section) => section.title);
    if (!named.includes(this.run)) this.run = named[0];
    const groups = new Map(sections.map((section) =>
      [section.title,
        make("div", { class: "tw-fields", hidden: section.title !== this.run }, section.fields.map((one) => this.field(one)))]));
    this.pickRun = (run) => {
      this.run = pick.value = run;
      for (const [name, group] of groups) group.hidden = name !== run;
    };
    const pick = make("select", { class: "tw-input", "aria-label": say("Run"), onchange: () => this.pickRun(pick.value) },
      named.map((name) => make("option", { value: name, text: name, selected: name === this.run })));
    return make("div", {},
      make("p", { class: "tw-quiet", text: say("What one run has otherwise than its kind of edge; left empty, it is the same.") }), pick,
      [...groups.values()]);
  }

  field(one) {
    const path = JSON.stringify(one.path), id = `field ${one.path.join(" ")}`.replaceAll(/[^A-Za-z0-9]+/g, "-");
    const props = { id, "data-path": path, "data-kind": one.kind, "aria-describedby": `${id}-says`, autocomplete: "off",
      spellcheck: "false" };
    const input = inputFor(one, props, this);
    const problem = make("p", { class: "tw-problem", id: `${id}-says`, hidden: true });
    const reading = make("p", { class: "tw-hint tw-reading", hidden: true });
    const hint = one.hint ? make("p", { class: "tw-hint", text: one.hint }) : null;
    const tick = one.kind === "check" || one.kind === "here";
    const row = make("div", { class: `tw-field tw-field-${one.kind}` }, make("label", { for: id, text: one.label }), input.el, problem,
      reading, hint);
    if (tick) row.prepend(input.el);
    const dim = one.path[0] === "roof" ? one.path.at(-1) : null;
    row.addEventListener("focusin", () => this.light(dim));
    row.addEventListener("focusout", () => this.light(null));
    this.fields.set(path, { ...input, row, problem, reading });
    return row;
  }

  // Puts what was told of a field into it; `written` is what was written into it since, if anything was.
  put(one, written) {
    const field = this.fields.get(JSON.stringify(one.path));
    if (!field) return;
    field.set(written === undefined ? one : { ...one, value: written, reading: null });
    const fresh = one.problem && field.problem.hidden && field.row.contains(document.activeElement);
    const lost = this.lost.has(JSON.stringify(one.path));
    field.problem.hidden = !one.problem && !lost;
    field.problem.textContent = lost ? NOT_ARRIVED() : one.problem;
    this.read(field.reading, one);
    field.row.classList.toggle("tw-wrong", Boolean(one.problem));
    field.control.setAttribute("aria-invalid", String(Boolean(one.problem)));
    if (fresh) field.row.scrollIntoView({ block: "nearest" });
  }

  // Says of what has not arrived at the server that it has not, until it has.
  late(paths) {
    this.lost = new Set(paths.map((path) => JSON.stringify(path)));
    for (const path of this.lost) {
      const { problem } = this.fields.get(path) ?? {};
      if (!problem) continue;
      problem.hidden = false;
      problem.textContent = NOT_ARRIVED();
    }
  }

  // Tells what a bare number is read as, and asks where that cannot be meant.
  read(line, one) {
    const { says, ask, meant, doubt } = one.reading ?? {};
    line.hidden = !says;
    line.classList.toggle("tw-flag", Boolean(ask || doubt));
    line.replaceChildren(...(says ? [makeText(says)] : []),
      ...(ask ? [" ", button(ask, () => this.send(one, meant), { class: "tw-link" })] : []));
  }

  // Opens where a field stands, and goes to it.
  reveal(section, one) {
    const box = this.boxes.get(boxOf(section));
    if (box) box.open = true;
    if (section.group === "runs") this.pickRun(section.title);
    if (section.group === "sides") this.outline.choose({ side: Number(section.name.split(".")[1]) });
    if (section.group === "corners") this.outline.choose({ corner: section.name.split(".").slice(1).map(Number) });
    const { control, row } = this.fields.get(JSON.stringify(one.path)) ?? {};
    row?.scrollIntoView({ block: "center" });
    control?.focus({ preventScroll: true });
  }

  revealOutline() {
    this.boxes.get("roof").open = true;
    this.outline.el.scrollIntoView({ block: "nearest" });
    this.outline.head.querySelector("button")?.focus({ preventScroll: true });
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
    for (const one of this.drawing?.querySelectorAll("[data-dim]") ?? []) {
      one.classList.toggle("tw-lit", one.dataset.dim.split(" ").includes(dim));
    }
  }
}

const NOT_ARRIVED = () => say("Not arrived yet: it is sent again.");

const makeText = (text) => make("span", { text });

const boxOf = ({ group, name }) => BOX_OF[group] ?? (group || name);
