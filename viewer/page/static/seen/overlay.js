// What is written over the roof: marks, notes, pins and measures, none on top of another.

import { THREE } from "nicegui-scene";
import { button, draw, make } from "trimwright/common/elements.js";
import { counted } from "trimwright/common/words.js";
import { hidden } from "trimwright/seen/pick.js";

const GAP = 3;
const AWAY = 6; // pixels between a note and its point that a line bridges
const MOST = 90;
const PIN = [50, 30]; // pixels kept for a pin, with its count

export class Overlay {
  constructor(view) {
    this.view = view;
    this.lines = draw("svg", { class: "tw-lines", "aria-hidden": "true" });
    this.box = make("div", { class: "tw-notes" });
    this.notes = [];
    this.strokes = [];
    this.keepOff = () => []; // boxes of what else lies over the picture
  }

  // A note: {text, points: [Vector3], normals: [Vector3]?, kind, priority, act?, says?, group?}
  add(note) {
    const props = { class: `tw-note tw-note-${note.kind}`, hidden: true };
    note.el = note.act ? button("", null, { ...props, "aria-label": note.says ?? note.text }) : make("div", props);
    note.label = make("span", { text: note.text });
    note.el.append(note.label);
    if (note.act) {
      note.el.tap = note.act; // pointers are told from drags by the view
      note.el.addEventListener("click", (event) => event.detail === 0 && note.act()); // keyboards and readers
    }
    note.leader = draw("path", { class: "tw-line tw-leader" });
    this.lines.append(note.leader);
    this.box.append(note.el);
    this.notes.push(note);
    return note;
  }

  // A line between points in the roof, drawn over it: {points: [Vector3], kind, text, group?}
  stroke(line) {
    line.el = draw("path", { class: `tw-line tw-line-${line.kind}` });
    this.lines.append(line.el);
    this.strokes.push(line);
    if (line.text) {
      const middle = line.points[0].clone().add(line.points[line.points.length - 1]).multiplyScalar(0.5);
      this.add({ text: line.text, points: [middle], kind: "measure", priority: 20, group: line.group });
    }
  }

  clear(group) {
    const stays = (one) => one.group !== group || (one.el.remove(), one.leader?.remove(), false);
    this.notes = this.notes.filter(stays);
    this.strokes = this.strokes.filter(stays);
  }

  place() {
    const { camera, canvas } = this.view;
    for (const note of this.notes) note.leader.setAttribute("d", "");
    const width = canvas.clientWidth, height = canvas.clientHeight;
    const taken = this.keepOff().map((box) => ({ note: {}, box, piled: [] })); // tools lie over the roof, too
    let left = MOST;
    const order = this.notes.filter((note) => {
      note.shown = note.when?.() !== false && this.seen(note, width, height);
      if (!note.shown) note.el.hidden = true;
      return note.shown;
    });
    order.sort((a, b) => b.priority - a.priority || a.far - b.far);
    for (const note of order) {
      if (left <= 0) {
        note.el.hidden = true;
        continue;
      }
      if (note.el.hidden) note.el.hidden = false;
      note.size ??= note.kind === "pin" ? PIN : [note.el.offsetWidth, note.el.offsetHeight];
      const spot = roomFor(note, taken, width, height);
      const behind = spot && note.kind !== "measure" && hidden(this.view, note.at);
      if (!spot || (behind && note.kind !== "pin")) {
        note.el.hidden = true;
        if (!spot && note.kind === "pin") pile(taken, note);
        continue;
      }
      left -= 1;
      note.el.classList.toggle("tw-behind", Boolean(behind));
      note.el.style.transform = note.kind === "pin" ? `translate(${spot[0] + PIN[0] / 2}px, ${spot[1]}px) translateX(-50%)`
        : `translate(${spot[0]}px, ${spot[1]}px)`;
      lead(note, spot);
      taken.push({ note, box: [spot[0], spot[1], spot[0] + note.size[0], spot[1] + note.size[1]], piled: [] });
    }
    for (const { note, piled } of taken) {
      if (note.kind !== "pin") continue;
      const text = piled.length ? `${note.text} ${piled.length + 1}` : note.text;
      if (note.label.textContent !== text) {
        note.label.textContent = text;
        note.el.setAttribute("aria-label", piled.length ? pileWords(piled.length + 1, note.says) : note.says);
      }
      note.piled = piled;
    }
    this.trace(camera, width, height);
  }

  // Projects the best of a note's points: the first that faces the eye and lies in the picture.
  seen(note, width, height) {
    const { camera } = this.view;
    for (let i = 0; i < note.points.length; i++) {
      const point = note.points[i];
      if (note.normals && camera.position.clone().sub(point).dot(note.normals[i]) <= 0) continue;
      const at = point.clone().project(camera);
      if (at.z > 1 || at.z < -1 || Math.abs(at.x) > 1.02 || Math.abs(at.y) > 1.02) continue;
      note.x = ((at.x + 1) / 2) * width;
      note.y = ((1 - at.y) / 2) * height;
      note.at = point;
      note.far = camera.position.distanceTo(point);
      return true;
    }
    return false;
  }

  trace(camera, width, height) {
    if (!this.strokes.length) return;
    const at = new THREE.Vector3();
    for (const line of this.strokes) {
      const places = line.points.map((point) => {
        at.copy(point).project(camera);
        return at.z > 1 ? null : `${(((at.x + 1) / 2) * width).toFixed(1)} ${(((1 - at.y) / 2) * height).toFixed(1)}`;
      });
      line.el.setAttribute("d", places.includes(null) ? "" : `M${places.join("L")}`);
    }
  }
}

// A line from a note that had to move aside to the point that it belongs to.
function lead(note, [x, y]) {
  const [w, h] = note.size;
  const near = [Math.min(Math.max(note.x, x), x + w), Math.min(Math.max(note.y, y), y + h)];
  if (note.kind === "pin" || Math.hypot(note.x - near[0], note.y - near[1]) < AWAY) return;
  note.leader.setAttribute("d", `M${near.map((at) => at.toFixed(1)).join(" ")}L${note.x.toFixed(1)} ${note.y.toFixed(1)}`);
}

// Pins stand on their point; all else is centered on it, or beside it where that is taken.
function roomFor(note, taken, width, height) {
  const [w, h] = note.size;
  const spots = note.kind === "pin"
    ? [[-w / 2, -h - 4]]
    : [[-w / 2, -h / 2], [-w / 2, -h - 8], [-w / 2, 8], [10, -h / 2], [-w - 10, -h / 2], [14, -h - 10], [-w - 14, 10], [22, 14],
      [-w - 22, -h - 14], [-w / 2, -h - 34], [-w / 2, 34]];
  for (const [dx, dy] of spots) {
    const x = Math.min(Math.max(note.x + dx, 2), width - w - 2), y = Math.min(Math.max(note.y + dy, 2), height - h - 2);
    if (taken.every(({ box }) => x > box[2] + GAP || x + w < box[0] - GAP || y > box[3] + GAP || y + h < box[1] - GAP)) {
      return [Math.round(x), Math.round(y)];
    }
  }
  return null;
}

const pileWords = (count, first) =>
  counted("{count} finding here: {first}", "{count} findings here, among them: {first}", { count, first });

// A pin without room is counted on the pin that has it.
function pile(taken, note) {
  let best = null, least = Infinity;
  for (const one of taken) {
    const far = Math.hypot(one.note.x - note.x, one.note.y - note.y);
    if (one.note.kind === "pin" && far < least) (best = one), (least = far);
  }
  best?.piled.push(note);
}
