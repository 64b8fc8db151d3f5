// The view of a roof: what is loaded is drawn, turned, picked, stepped through and looked at from named places.
// Pages and apps put it into an element of theirs and talk to it through the methods and events of this class.
// Events: "pick" {mark, name, kind, point}, "tap" (before a pick; cancel it to use the tap otherwise), "step", "pins".

import { OrbitControls, THREE } from "nicegui-scene";
import { Flight, animate, around } from "trimwright/seen/flight.js";
import { watchFingers, watchKeys } from "trimwright/seen/gestures.js";
import { Looks } from "trimwright/seen/looks.js";
import { make } from "trimwright/common/elements.js";
import { Overlay } from "trimwright/seen/overlay.js";
import { Pace } from "trimwright/seen/sharpness.js";
import { crossed } from "trimwright/common/crossed.js";
import { hitAt, pickAt } from "trimwright/seen/pick.js";
import { Sky } from "trimwright/seen/sky.js";
import { buildWorld, disposeWorld, placeScrews } from "trimwright/seen/bodies.js";

const SLIDE = 600; // milliseconds that a piece takes to its place
const AWAY = 0.55; // metres that it comes from
const SHAPES = ["shapes", "bodies", "screws"]; // what the world is built from

export class RoofView extends EventTarget {
  constructor(host) {
    super();
    this.host = host;
    host.classList.add("tw-stage");
    this.pace = new Pace(() => requestAnimationFrame(() => this.paintNow()));
    this.renderer = this.pace.renderer;
    this.canvas = this.renderer.domElement;
    this.canvas.setAttribute("aria-hidden", "true");
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(26, 1, 0.1, 500);
    this.sky = new Sky(this.scene, this.renderer);
    this.overlay = new Overlay(this);
    this.halves = ["First", "Second"].map((text) => make("span", { class: "tw-half", text, hidden: true }));
    host.append(this.canvas, this.overlay.lines, this.overlay.box, ...this.halves);
    this.controls = new OrbitControls(this.camera, host); // on the host, so that a gesture may begin on a note
    this.controls.screenSpacePanning = true;
    this.flight = new Flight(this.camera, this.controls, () => this.draw());
    this.controls.addEventListener("change", () => this.draw());
    this.lift = 0;
    this.shown = { panels: true, marks: false, screws: true, pins: true };
    watchFingers(this);
    watchKeys(this);
    new ResizeObserver(() => this.resize()).observe(host);
  }

  // data: what payload.py hands out. When another roof was there before, the looks stay, and so does the eye, unless
  // it stands at a view point: then it stands at that of the new roof.
  load(data) {
    const before = this.data;
    this.looks ??= new Looks(this.sky);
    const world = before && SHAPES.every((part) => data[part] === before[part]) ? this.world : buildWorld(data, this.looks);
    if (this.world && world !== this.world) disposeWorld(this.world);
    this.looks.take(data);
    Object.assign(this, { data, world, selected: null, sliding: null });
    this.pieces = new Map(data.pieces.map((piece, index) => [piece.mark, { ...piece, index, body: world.byName.get(`trim ${piece.mark}`) }]));
    this.walls = world.bodies.filter(({ userData: { kind } }) => ["deck", "wall"].includes(kind));
    this.scene.add(world.group);
    const box = new THREE.Box3().setFromObject(world.group);
    this.flight.reach = box.getBoundingSphere(new THREE.Sphere()).radius;
    this.box = box;
    this.sky.fit(box);
    if (before?.panelsShown !== data.panelsShown) this.shown.panels = data.panelsShown;
    this.steps = data.steps.length;
    this.step = this.steps;
    this.writeMarks();
    if (before) this.stayAt();
    this.arrange();
    if (!before) {
      this.resize();
      this.standAt(data.views[0].name, 0);
    }
  }

  // The place where the eye stands, as it is on another roof; one that this does not have is left.
  stayAt() {
    const { name } = this.place ?? {};
    if (!name) return;
    const place = this.data.views.find((one) => one.name === name);
    if (!place) return this.leave();
    this.place = taken(place);
    this.writeNotes(this.place);
    if (this.flight.shot) this.flight.to(place, 0);
  }

  draw() { // on demand only: it saves the phone's battery
    this.pending ??= requestAnimationFrame(() => {
      this.pending = undefined;
      if (this.pace.slow) this.pace.coarse(() => this.paintPlain());
      else this.paintNow();
    });
  }

  paintNow() {
    this.pace.fine(() => this.paint());
  }

  // Without the lines along the panels, which are many and faint.
  paintPlain() {
    const lines = this.world?.bodies.filter(({ userData: { kind } }) => kind === "pan").map((mesh) => mesh.userData.edges) ?? [];
    for (const one of lines) one.visible = false;
    this.paint();
    for (const one of lines) one.visible = true;
  }

  paint() {
    const { renderer, camera, scene } = this;
    const { width, height } = this.size ?? {};
    if (!width || !this.world) return;
    if (this.other) this.paintTwice(width, height);
    else renderer.render(scene, camera);
    this.overlay.box.hidden = Boolean(this.other);
    for (const half of this.halves) half.hidden = !this.other;
    if (!this.other) this.overlay.place();
  }

  // Two finishes, side by side where the picture is wide, one over the other where it is tall; each half sees all
  // that the whole did. Notes and taps would be out of place on it.
  paintTwice(width, height) {
    const { renderer, camera, scene } = this;
    const wide = width > height;
    const [w, h] = wide ? [width / 2, height] : [width, height / 2];
    Object.assign(this.halves[1].style, wide ? { left: `${w}px`, top: 0 } : { left: 0, top: `${h}px` });
    const fov = camera.fov;
    if (wide) camera.fov = (360 / Math.PI) * Math.atan(2 * Math.tan((fov * Math.PI) / 360));
    camera.aspect = w / h;
    camera.updateProjectionMatrix();
    renderer.setScissorTest(true);
    [this.looks.look, this.other].forEach((look, half) => {
      const x = wide ? half * w : 0, y = wide ? 0 : (1 - half) * h;
      this.looks.use(look);
      renderer.setViewport(x, y, w, h);
      renderer.setScissor(x, y, w, h);
      renderer.render(scene, camera);
    });
    renderer.setScissorTest(false);
    renderer.setViewport(0, 0, width, height);
    Object.assign(camera, { fov, aspect: width / height });
    camera.updateProjectionMatrix();
    this.looks.use(this.looks.look);
  }

  resize() {
    const width = this.host.clientWidth, height = this.host.clientHeight;
    if (!width || !height) return;
    this.size = { width, height };
    this.dispatchEvent(new Event("resize"));
    this.renderer.setSize(width, height);
    this.flight.reshape(width / height);
    this.paintNow();
  }

  // What is on the roof now: by step, by what is to be shown, and lifted off by how much.
  arrange() {
    const { world, shown, step } = this;
    for (const mesh of world.bodies) {
      const { kind, name, step: own } = mesh.userData;
      const panel = kind === "pan";
      mesh.visible = own <= step && !(panel && !this.panelsSeen) && !this.place?.hidden.has(name);
      mesh.material = kind === "trim" && name === this.selected ? this.looks.metals.chosen : this.looks.materialOf(mesh.userData);
      mesh.userData.edges.material = this.lineFor(mesh);
      mesh.position.copy(this.offset(mesh));
    }
    world.screws.visible = shown.screws;
    this.seatScrews();
    this.sky.stale();
    this.draw();
  }

  lineFor(mesh) {
    const { kind, name } = mesh.userData;
    if (kind !== "trim") return this.looks.faint;
    if (name === this.selected) return this.looks.chosenLine;
    return this.under?.has(name) ? this.looks.through : this.looks.line;
  }

  offset(mesh) {
    const shift = new THREE.Vector3();
    const { lift, name, kind } = mesh.userData;
    if (lift) shift.fromArray(lift).multiplyScalar(this.lift * Math.min(0.14 * this.flight.reach, 1.6));
    const apart = kind === "trim" && this.place?.apart?.[name];
    if (apart) shift.add(new THREE.Vector3(...apart));
    return shift;
  }

  seatScrews() {
    const { world, data } = this;
    const bodies = data.pieces.map((piece) => world.byName.get(`trim ${piece.mark}`));
    const away = new THREE.Vector3(0, -1e4, 0);
    placeScrews(world.screws, data, (index) => {
      const body = bodies[index];
      if (!body.visible || this.sliding === body) return away;
      return body.position.lengthSq() ? body.position : null;
    });
  }

  select(mark) {
    this.selected = this.pieces?.has(mark) ? mark : null;
    this.under = new Set(this.selected ? this.pieces.get(mark).under : []);
    this.arrange();
  }

  // Shows what is set after n steps; going forward by one, what the step sets slides to its place.
  setStep(n) {
    const forward = n === this.step + 1;
    this.step = Math.min(Math.max(n, 0), this.steps);
    const names = this.data.steps[this.step - 1]?.names ?? [];
    this.select(this.step < this.steps || forward ? (names.length === 1 ? names[0] : null) : null);
    if (forward) this.slideIn(names);
    this.dispatchEvent(new CustomEvent("step", { detail: this.step }));
  }

  slideIn(names) {
    this.stopSlide?.();
    const set = new Set(names);
    const bodies = this.world.bodies.filter(({ userData: { name, step } }) => step === this.step && set.has(name));
    this.sliding = bodies[0];
    this.seatScrews();
    const from = bodies.map((mesh) => new THREE.Vector3(...(mesh.userData.lift ?? [0, 1, 0])).setLength(AWAY));
    this.stopSlide = animate(SLIDE, (t) => {
      bodies.forEach((mesh, i) => mesh.position.copy(this.offset(mesh)).addScaledVector(from[i], 1 - t));
      this.sky.stale();
      this.draw();
    }, () => {
      this.sliding = null;
      this.arrange();
    });
  }

  // Goes to a named view point and shows what it shows.
  standAt(name, milliseconds) {
    const place = this.data.views.find((one) => one.name === name);
    if (!place) return null;
    this.place = taken(place);
    this.looks.apart = place.coloring === "pieces";
    this.shown.marks = place.marks;
    this.select(place.highlight[0] ?? null);
    this.writeNotes(place);
    this.flight.to(place, milliseconds);
    return place;
  }

  // Leaves a view point: the eye stays, all is shown again.
  leave() {
    if (!this.place) return;
    this.place = null;
    this.overlay.clear("place");
    this.arrange();
  }

  // Looks at a piece, or at one end of it, from outside; without the panels when it lies under them.
  lookAt(mark, end = null, milliseconds) {
    const piece = this.pieces.get(mark);
    if (!piece) return;
    this.bareFor(piece);
    const { middle, along, facing, size } = piece;
    const at = new THREE.Vector3(...middle);
    if (end) at.addScaledVector(new THREE.Vector3(...along), (end === "low" ? -0.5 : 0.5) * size);
    const way = new THREE.Vector3(...facing);
    if (end) way.addScaledVector(new THREE.Vector3(...along), end === "low" ? -0.45 : 0.45);
    this.flight.to(around(at, end ? 0.32 : Math.max(size * 0.62, 0.8), way), milliseconds);
  }

  // Looks at a point closely, from where the nearest piece faces.
  lookAtPoint(point, mark, milliseconds) {
    this.bareFor(this.pieces.get(mark));
    const facing = this.pieces.get(mark)?.facing ?? this.camera.position.clone().sub(this.controls.target).toArray();
    this.flight.to(around(new THREE.Vector3(...point), 0.75, new THREE.Vector3(...facing)), milliseconds);
  }

  bareFor(piece) {
    this.leave();
    if (!["eave", "rake"].includes(piece?.trim)) return;
    this.place = { panels: false, hidden: new Set(), labels: [], lines: [] };
    this.arrange();
  }

  // Draws lines of a piece's flat pattern where they lie on the roof; none takes them away.
  drawOn(mark, lines, kind) {
    this.overlay.clear("work");
    const { v, section, place } = this.pieces.get(mark).formed;
    const onRoof = ([u, across]) => {
      const i = Math.min(Math.max(v.findIndex((one) => one >= across), 1), v.length - 1);
      const share = (across - v[i - 1]) / (v[i] - v[i - 1]);
      const [out, up] = [0, 1].map((k) => section[i - 1][k] + (section[i][k] - section[i - 1][k]) * share);
      return new THREE.Vector3(...place.map((row) => row[0] * u + row[1] * out + row[2] * up + row[3]));
    };
    for (const line of lines.flatMap(crossed)) {
      const points = line.slice(1).flatMap((end, i) => dotted(line[i], end)).map(onRoof);
      if (points.length) this.overlay.stroke({ points, kind, group: "work" });
    }
    this.draw();
  }

  setLook(look) {
    this.looks.set(look);
    this.draw();
  }

  // The other finish to show beside this one; null for none.
  setOther(look) {
    this.other = look;
    this.draw();
  }

  show(what) {
    Object.assign(this.shown, what);
    this.arrange();
  }

  get panelsSeen() {
    return this.shown.panels && this.place?.panels !== false;
  }

  showPanels(on) {
    if (this.place) this.place.panels = on;
    this.show({ panels: on });
  }

  setApart(apart) {
    this.looks.apart = apart;
    this.arrange();
  }

  setLift(share) {
    this.lift = share;
    this.arrange();
  }

  setSun(from, height) {
    this.sky.shine(from, height);
    this.draw();
  }

  writeMarks() {
    this.overlay.clear("marks");
    for (const label of this.data.labels) {
      this.overlay.add({
        ...vectors(label), text: label.text, kind: label.kind, priority: label.priority, group: "marks",
        when: () => this.shown.marks && this.pieces.get(label.mark).body.visible && !this.place?.labels.length,
      });
    }
  }

  writeNotes(place) {
    this.overlay.clear("place");
    for (const label of place.labels) this.overlay.add({ ...vectors(label), text: label.text, kind: label.kind, priority: label.priority, group: "place" });
    for (const line of place.lines) this.overlay.stroke({ ...vectors(line), kind: line.kind, text: line.text, group: "place" });
  }

  tapped(x, y, reach) {
    if (this.other) return;
    const tap = new CustomEvent("tap", { detail: { x, y, reach, hit: () => hitAt(this, x, y) ?? pickAt(this, x, y, reach) }, cancelable: true });
    if (!this.dispatchEvent(tap)) return;
    const hit = pickAt(this, x, y, reach);
    const kind = hit?.body.userData.kind, name = hit?.name;
    const mark = kind === "trim" ? name : null;
    this.select(mark);
    this.dispatchEvent(new CustomEvent("pick", { detail: hit ? { mark, kind, name, point: hit.point.toArray() } : null }));
  }
}

// A straight line as points close enough to follow the bends that it crosses.
function dotted([u, v], [u2, v2]) {
  return Array.from({ length: 33 }, (_, i) => [u + ((u2 - u) * i) / 32, v + ((v2 - v) * i) / 32]);
}

const taken = (place) => ({ ...place, hidden: new Set(place.hidden) });

const vectors = ({ points, normals }) => ({
  points: points.map((point) => new THREE.Vector3(...point)),
  normals: normals?.map((normal) => new THREE.Vector3(...normal)),
});
