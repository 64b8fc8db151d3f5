// Finishes: what trim, panels and walls are made of and painted with, and the look in which pieces are told apart.

import { THREE } from "nicegui-scene";
import { paint, perforated, plain, primed, sheetMetal } from "trimwright/seen/metal.js";

const CHOSEN = "#ffc91f", QUIET = "#c9cdcc";

// of the house, seen in the finished look only
export const OUTSIDE = new Set(["siding", "foundation", "casing", "door", "glass", "gutter"]);

export class Looks {
  constructor() {
    this.apart = false;
    this.metals = { trim: sheetMetal(), pan: sheetMetal(), gutter: sheetMetal(), chosen: sheetMetal(), quiet: sheetMetal(),
      short: sheetMetal() };
    paint(this.metals.chosen, { color: CHOSEN });
    this.metals.chosen.emissive.set("#5a4300");
    this.metals.chosen.sides.back.value = new THREE.Color("#c79500");
    paint(this.metals.quiet, { color: QUIET });
    this.plain = { deck: plain(), fascia: plain(), wall: plain(), foundation: plain(), casing: plain(), door: plain() };
    Object.assign(this.plain, { siding: this.plain.wall, glass: sheetMetal() });
    this.screw = new THREE.MeshStandardMaterial();
    this.line = new THREE.LineBasicMaterial({ color: "#1b2326", transparent: true, opacity: 0.55 });
    this.finished = new THREE.LineBasicMaterial({ color: "#1b2326", transparent: true, opacity: 0.16 });
    this.faint = new THREE.LineBasicMaterial({ color: "#1b2326", transparent: true, opacity: 0.22 });
    this.through = new THREE.LineBasicMaterial({ color: "#0b4f8a", transparent: true, opacity: 0.9, depthTest: false });
    this.chosenLine = new THREE.LineBasicMaterial({ color: "#2b2000", transparent: true, opacity: 0.45, depthTest: false });
  }

  // Takes up another roof; a finish that somebody tries stays, until the scene itself has another.
  take({ pieces, finish, apart, outdoors, holes }) {
    primed(outdoors.sheet);
    perforated(holes, outdoors.perforated);
    for (const [kind, tones] of Object.entries(apart.kinds)) tones.forEach((color, tone) =>
      paint((this.metals[`${kind}${tone}`] ??= sheetMetal()), { color }));
    paint(this.metals.short, { color: apart.short });
    for (const [kind, color] of Object.entries(outdoors.built)) this.plain[kind]?.color.set(color);
    for (const one of [this.metals.pan, this.metals.quiet]) one.sides.foam.value.set(outdoors.built.foam);
    paint(this.plain.glass, outdoors.glass);
    const { color, metal, rough } = outdoors.screws;
    this.screw.setValues({ color, metalness: metal, roughness: rough });
    this.pieces = new Map(pieces.map((piece) => [piece.mark, piece]));
    const own = JSON.stringify(finish);
    if (own !== this.own) this.set(finish);
    this.own = own;
  }

  // look: {trim, panels, gutters: {color, metal, rough, bare}, walls: "#rrggbb"}; what is left out stays; gutters without
  // a look have that of the trim
  set(look) {
    this.look = { ...this.look, ...look };
    this.use(this.look);
  }

  use(look) {
    paint(this.metals.trim, look.trim);
    paint(this.metals.pan, look.panels);
    paint(this.metals.gutter, look.gutters ?? look.trim);
    this.plain.wall.color.set(look.walls);
  }

  materialOf(body) {
    if (body.kind === "trim") {
      if (!this.apart) return this.metals.trim;
      const piece = this.pieces.get(body.name);
      return piece.short ? this.metals.short : this.metals[`${piece.trim}${Number(body.name.split("-").pop()) % 2}`];
    }
    if (body.kind === "pan") return this.apart ? this.metals.quiet : this.metals.pan;
    if (body.kind === "gutter") return this.metals.gutter;
    return this.plain[body.kind] ?? this.plain.deck;
  }

  lineOf(body) {
    if (!this.apart) return this.finished; // light shows the edges
    return body.kind === "trim" ? this.line : this.faint;
  }
}
