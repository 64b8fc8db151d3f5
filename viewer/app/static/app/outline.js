// The field of an outline: its plan to draw in, the side or corner that is chosen, and a row for every corner.

import { button, make } from "trimwright/common/elements.js";
import { ICONS, icon, iconButton } from "trimwright/common/icons.js";
import { lengthWriter } from "trimwright/common/lengths.js";
import { say } from "trimwright/common/words.js";
import { watchPlan } from "trimwright-app/outline_gestures.js";
import { OutlinePlan, sidesOf } from "trimwright-app/outline_plan.js";

export class OutlineField {
  // send: (what) => … changes the outline; change: (path, value) => … changes a field; light: (side) => … shows a side on the roof;
  // released: () => … when nothing is dragged any more.
  constructor({ send, change, light, released }) {
    Object.assign(this, { send, change, light, released, chosen: { side: 1 }, every: false });
    this.plan = new OutlinePlan();
    this.problem = make("p", { class: "tw-problem", role: "status", hidden: true });
    this.head = make("div", { class: "tw-outline-head" });
    this.reading = make("p", { class: "tw-hint tw-reading tw-flag", hidden: true });
    this.sides = make("div", {});
    this.tools = make("div", { class: "tw-chips" });
    this.corners = make("div", { class: "tw-corners" });
    this.all = button("", () => this.showEvery(!this.every), { class: "tw-link", "aria-expanded": "false" });
    this.el = make("div", { class: "tw-outline" },
      make("figure", { class: "tw-sketch" }, this.plan.el), this.problem, this.head, this.reading, this.sides, this.corners,
      this.tools, this.all);
    watchPlan(this);
    this.el.addEventListener("pointerdown", () => this.attend(true), true);
    this.el.addEventListener("focusin", () => this.attend(true));
    this.el.addEventListener("pointerover", () => this.attend(true));
    this.el.addEventListener("pointerleave", ({ pointerType }) => pointerType === "mouse"
      && this.attend(this.el.contains(document.activeElement)));
    this.el.addEventListener("focusout", ({ relatedTarget: to }) => to && this.attend(this.el.matches(":hover") || this.el.contains(to)));
  }

  // Takes the rows that the form made: {side number: element}, and those of corners: {"ring,corner": element}.
  take(sides, corners) {
    this.sideRows = sides;
    this.cornerRows = corners;
    this.sides.replaceChildren(...sides.values());
    this.corners.replaceChildren(...corners.values());
    if (this.told) this.choose(this.chosen);
  }

  show(told) {
    this.told = told;
    this.length = lengthWriter(told.tape);
    this.rings = told.rings.map((ring) => ring ?? []);
    this.problem.hidden = !told.problem;
    this.problem.textContent = told.problem;
    this.choose(this.wanted ?? this.chosen);
    this.wanted = null;
  }

  // While something is dragged the form stays as it is; what is told meanwhile is shown afterwards.
  hold(held) {
    this.held = held;
    if (!held) this.released();
  }

  // Makes a change; `then` is what is chosen once it is made.
  edit(what, then) {
    this.wanted = then ?? null;
    this.send(what);
  }

  // {side} or {corner: [ring, number]}
  choose(chosen) {
    const sides = sidesOf(this.rings), { corner, side } = chosen;
    if (corner && !this.rings[corner[0]]?.[corner[1]]) chosen = { side: 1 };
    if (side && !sides[side - 1]) chosen = { side: 1 };
    this.chosen = chosen;
    for (const [number, row] of this.sideRows ?? []) row.hidden = number !== chosen.side;
    this.showEvery(this.every);
    this.keepingPlace(() => this.writeHead(sides));
    this.draw();
    this.shine();
  }

  // Shows on the roof what is pointed at or chosen, for as long as somebody is at the plan.
  shine() {
    this.light(this.here ? this.pointed ?? this.chosen.side ?? null : null);
  }

  // Lights up a side without choosing it.
  point(side) {
    if (side === this.pointed) return;
    this.pointed = side;
    this.draw();
    this.shine();
  }

  // Somebody is at the plan, or has left it.
  attend(here) {
    if (here === this.here) return;
    this.here = here;
    this.shine();
  }

  draw() {
    if (!this.told) return;
    const { rings, told, chosen, pointed, length } = this;
    this.plan.draw({ rings, told, chosen, pointed, length });
  }

  showEvery(every) {
    this.every = every;
    this.corners.classList.toggle("tw-every", every);
    const key = String(this.chosen.corner ?? "");
    for (const [name, row] of this.cornerRows ?? []) {
      row.hidden = !every && name !== key;
      row.classList.toggle("tw-is-chosen", name === key);
    }
    this.all.textContent = every ? say("Only the corner that is chosen") : say("Every corner, in figures");
    this.all.setAttribute("aria-expanded", String(every));
  }

  controls() {
    return [...this.head.querySelectorAll("button, input"), ...this.tools.querySelectorAll("button")];
  }

  // What is made anew keeps the place that a keyboard had in it: `change` makes it.
  keepingPlace(change) {
    const at = this.controls().indexOf(document.activeElement);
    change();
    if (at >= 0) this.controls()[at]?.focus({ preventScroll: true });
  }

  writeHead(sides) {
    const { chosen: { side, corner } } = this;
    if (this.isWriting(side)) return;
    if (!sides.length) return this.head.replaceChildren();
    const stands = Boolean(side && this.asked?.side === side && Math.abs(this.asked.long - sides[side - 1].long) < 0.1);
    this.reading.hidden = !stands;
    if (stands) this.ask(this.asked);
    const step = (by) =>
      this.choose(side ? { side: ((side - 1 + by + sides.length) % sides.length) + 1 } : { corner: this.cornerBeside(corner, by) });
    const arrow = (name, text, by) => iconButton(name, text, () => step(by));
    const [before, after] = side ? [say("The side before"), say("The next side")] : [say("The corner before"), say("The next corner")];
    this.head.replaceChildren(arrow("left", before, -1), ...(side ? this.aboutSide(sides[side - 1]) : this.aboutCorner(corner)),
      arrow("right", after, 1));
    this.tools.replaceChildren(...(side ? this.sideTools(sides[side - 1]) : this.cornerTools(corner)));
  }

  // Whether somebody is in the middle of writing the length of a side: no answer takes it from under the keys.
  isWriting(side) {
    const input = this.head.querySelector("input");
    return input && input === document.activeElement && input.value !== input.defaultValue && input.dataset.side === String(side);
  }

  aboutSide({ number, long }) {
    const now = this.length(long);
    const input = make("input",
      { type: "text", class: "tw-input", value: now, "data-side": number, maxlength: 60,
        "aria-label": say("Length of side {number}", { number }), onchange: () => input.value !== now
          && this.setLength(number, input.value) });
    input.addEventListener("keydown", (event) => event.key === "Enter" && input.blur());
    return [make("b", { text: say("Side {number}", { number }) }), input];
  }

  // A bare number that is too small for a side of a house is asked about, once it stands.
  setLength(side, written) {
    const { unit, inches, larger, small } = this.told.bare;
    const number = /^\s*\d+(\.\d*)?\s*$/.test(written) ? Number(written) : 0, long = number * inches;
    this.asked = 0 < long && long < small && larger ? { side, number, unit, long, meant: `${number} ${larger}` } : null;
    this.edit({ what: "length", side, value: written });
  }

  ask({ side, number, unit, long, meant }) {
    const says = say("{number} {unit}, read as {length}", { number, unit, length: this.length(long) });
    this.reading.replaceChildren(says, " ",
      button(say("Did you mean {length}?", { length: meant }), () => this.setLength(side, meant), { class: "tw-link" }));
  }

  aboutCorner([ring, k]) {
    const [x, y] = this.rings[ring][k];
    const text = ring ? say("Courtyard {court}, corner {number}", { court: ring, number: k + 1 })
      : say("Corner {number}", { number: k + 1 });
    return [make("b", { text }), make("span", { class: "tw-figure", text: `${signed(this.length, x)}, ${signed(this.length, y)}` })];
  }

  sideTools({ number, ring, k }) {
    const gable = this.told.gables.includes(number);
    return [
      tool("corner", say("Corner on this side"), () => this.edit({ what: "add", side: number }, { corner: [ring, k + 1] })),
      tool("wing", say("Wing here"), () => this.edit({ what: "wing", side: number }, { side: number + 2 })),
      !gable && tool("porch", say("Porch here"), () => this.edit({ what: "porch", side: number })),
      ring === 0 ? tool("court", say("Courtyard"), () => this.edit({ what: "court" }))
        : tool("court", say("Fill this courtyard in"), () => this.edit({ what: "uncourt", ring }, { side: 1 })),
    ].filter(Boolean);
  }

  cornerTools([ring]) {
    return ring > 0 ? [tool("court", say("Fill this courtyard in"), () => this.edit({ what: "uncourt", ring }, { side: 1 }))] : [];
  }

  takeAway([ring, corner]) {
    if (this.rings[ring].length > 3) this.edit({ what: "remove", ring, corner }, { side: 1 });
  }

  // The corner before or after another, on through the courtyards.
  cornerBeside([ring, k], by) {
    const all = this.rings.flatMap((corners, r) => corners.map((_, i) => [r, i]));
    const at = all.findIndex(([r, i]) => r === ring && i === k);
    return all[(at + by + all.length) % all.length];
  }

  // The number of the side that is chosen, or of the first that is an eave where that is a gable.
  eaveChosen() {
    const { chosen: { side }, told } = this;
    if (side && !told?.gables.includes(side)) return side;
    return sidesOf(this.rings ?? []).find(({ number }) => !told.gables.includes(number))?.number ?? 1;
  }

  // An eave becomes a gable, a gable an eave.
  turn(side) {
    this.change(["roof", "sides", String(side), "edge"], this.told.gables.includes(side) ? "" : "gable");
  }
}

const SIGNS = {
  corner: "M3 18 12 7l9 11M9 4h6M12 1v6",
  wing: "M2 20V10h6V3h8v7h6v10",
  porch: "M2 10 10 3h4l8 7M5 20v-7m14 7v-7M3 13h18",
  court: "M3 4h18v16H3zM9 10h6v5H9z",
};

function tool(sign, text, act) {
  const one = button("", act, { class: "tw-chip tw-tool" });
  one.append(icon(SIGNS[sign] ?? ICONS.look), make("span", { text }));
  return one;
}

const signed = (length, inches) => (inches < 0 ? `-${length(-inches)}` : length(inches));
