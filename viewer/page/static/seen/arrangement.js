// What is on the roof now: set so far by the order of the work, shown or put away, lifted apart, and chosen.

import { THREE } from "nicegui-scene";
import { placeScrews } from "trimwright/seen/bodies.js";
import { animate } from "trimwright/seen/flight.js";
import { OUTSIDE } from "trimwright/seen/looks.js";

const SLIDE = 600; // milliseconds that a piece takes to its place
const AWAY = 0.55; // meters that it comes from
const GONE = new THREE.Vector3(0, -1e4, 0); // where screws are whose piece is not there

export class Arrangement {
  constructor(view) {
    this.view = view;
    this.lift = 0;
    this.shown = { panels: true, marks: false, screws: true, pins: true };
  }

  // Takes up another roof: all of it is set, and nothing chosen.
  take({ steps, panelsShown }) {
    if (this.panelsShown !== panelsShown) this.shown.panels = panelsShown;
    this.panelsShown = panelsShown;
    this.steps = this.step = steps.length;
    this.selected = this.sliding = null;
    this.under = new Set();
  }

  // Puts everything where it is now.
  arrange() {
    const { view: { world, looks, viewpoints, sky, painter }, shown, step } = this;
    for (const mesh of world.bodies) {
      const { kind, name, step: own } = mesh.userData;
      mesh.visible = own <= step && (kind !== "pan" || this.panelsSeen) && !viewpoints.hides(name) && !(looks.apart && OUTSIDE.has(kind));
      mesh.material = kind === "trim" && name === this.selected ? looks.metals.chosen : looks.materialOf(mesh.userData);
      mesh.userData.edges.material = this.lineOf(mesh);
      mesh.position.copy(this.offset(mesh));
    }
    world.screws.visible = shown.screws;
    this.seatScrews();
    sky.stale();
    painter.draw();
  }

  lineOf({ userData }) {
    const { looks } = this.view;
    if (userData.kind !== "trim") return looks.lineOf(userData);
    if (userData.name === this.selected) return looks.chosenLine;
    return this.under.has(userData.name) ? looks.through : looks.lineOf(userData);
  }

  offset({ userData: { lift, name, kind } }) {
    const { flight, viewpoints } = this.view;
    const shift = new THREE.Vector3();
    if (lift) shift.fromArray(lift).multiplyScalar(this.lift * Math.min(0.14 * flight.reach, 1.6));
    const apart = kind === "trim" && viewpoints.current?.apart?.[name];
    if (apart) shift.add(new THREE.Vector3(...apart));
    return shift;
  }

  seatScrews() {
    const { world, data } = this.view;
    const bodies = data.pieces.map((piece) => world.byName.get(`trim ${piece.mark}`));
    placeScrews(world.screws, data, (index) => {
      const body = bodies[index];
      if (!body.visible || this.sliding === body) return GONE;
      return body.position.lengthSq() ? body.position : null;
    });
  }

  select(mark) {
    const { pieces } = this.view;
    this.selected = pieces?.has(mark) ? mark : null;
    this.under = new Set(this.selected ? pieces.get(mark).under : []);
    this.arrange();
  }

  // Shows what is set after n steps; going forward by one, what the step sets slides to its place.
  setStep(n) {
    const forward = n === this.step + 1;
    this.step = Math.min(Math.max(n, 0), this.steps);
    const names = this.view.data.steps[this.step - 1]?.names ?? [];
    this.select(this.step < this.steps || forward ? (names.length === 1 ? names[0] : null) : null);
    if (forward) this.slideIn(names);
    this.view.dispatchEvent(new CustomEvent("step", { detail: this.step }));
  }

  slideIn(names) {
    const { world, sky, painter } = this.view;
    this.stopSlide?.();
    const set = new Set(names);
    const bodies = world.bodies.filter(({ userData: { name, step } }) => step === this.step && set.has(name));
    this.sliding = bodies[0];
    this.seatScrews();
    const from = bodies.map((mesh) => new THREE.Vector3(...(mesh.userData.lift ?? [0, 1, 0])).setLength(AWAY));
    this.stopSlide = animate(SLIDE, (t) => {
      bodies.forEach((mesh, i) => mesh.position.copy(this.offset(mesh)).addScaledVector(from[i], 1 - t));
      sky.stale();
      painter.draw();
    }, () => {
      this.sliding = null;
      this.arrange();
    });
  }

  // what: {panels, marks, screws, pins: true or false}
  show(what) {
    Object.assign(this.shown, what);
    this.arrange();
  }

  get panelsSeen() {
    return this.shown.panels && this.view.viewpoints.current?.panels !== false;
  }

  showPanels(on) {
    const { current } = this.view.viewpoints;
    if (current) current.panels = on;
    this.show({ panels: on });
  }

  // Colors the pieces so that each is told from the next.
  tellApart(on) {
    this.view.looks.apart = on;
    this.arrange();
  }

  liftApart(share) {
    this.lift = share;
    this.arrange();
  }
}
