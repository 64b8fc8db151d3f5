// The view of a roof: what is loaded is drawn, turned, picked, stepped through and looked at from named view points.
// Pages and apps put it into an element of theirs and talk to its parts: painter, arrangement, viewpoints, looks, sky.
// Events: "pick" {mark, name, kind, point}, "tap" (before a pick; cancel it to use the tap otherwise), "step", "resize".

import { OrbitControls, THREE } from "nicegui-scene";
import { Arrangement } from "trimwright/seen/arrangement.js";
import { buildWorld, disposeWorld } from "trimwright/seen/bodies.js";
import { Flight } from "trimwright/seen/flight.js";
import { watchFingers, watchKeys } from "trimwright/seen/gestures.js";
import { Looks } from "trimwright/seen/looks.js";
import { writeMarks } from "trimwright/seen/notes.js";
import { Overlay } from "trimwright/seen/overlay.js";
import { Painter } from "trimwright/seen/painter.js";
import { Sky } from "trimwright/seen/sky.js";
import { Viewpoints } from "trimwright/seen/viewpoints.js";

const SHAPES = ["shapes", "bodies", "screws"]; // what the world is built from

export class RoofView extends EventTarget {
  constructor(host) {
    super();
    this.host = host;
    host.classList.add("tw-stage");
    this.painter = new Painter(this);
    const { canvas, camera, scene, renderer, halves } = this.painter;
    Object.assign(this, { canvas, camera });
    this.sky = new Sky(scene, renderer);
    this.overlay = new Overlay(this);
    host.append(canvas, this.overlay.lines, this.overlay.box, ...halves);
    this.controls = new OrbitControls(camera, host); // on the host, so that a gesture may begin on a note
    this.controls.screenSpacePanning = true;
    this.flight = new Flight(camera, this.controls, () => this.painter.draw());
    this.controls.addEventListener("change", () => this.painter.draw());
    this.arrangement = new Arrangement(this);
    this.viewpoints = new Viewpoints(this);
    watchFingers(this);
    watchKeys(this);
    new ResizeObserver(() => this.painter.resize()).observe(host);
  }

  // data: what payload.py hands out. When another roof was there before, the looks stay, and so does the eye, unless
  // it stands at a view point: then it stands at that of the new roof.
  load(data) {
    const { data: before, world: old, arrangement, viewpoints, painter } = this;
    this.looks ??= new Looks();
    this.sky.take(data.outdoors);
    const same = before && SHAPES.every((part) => data[part] === before[part]);
    const world = same ? old : buildWorld(data, this.looks);
    if (old && !same) disposeWorld(old);
    this.looks.take(data);
    Object.assign(this, { data, world });
    this.pieces = new Map(data.pieces.map((piece, index) =>
      [piece.mark, { ...piece, index, body: world.byName.get(`trim ${piece.mark}`) }]));
    this.walls = world.bodies.filter(({ userData: { kind } }) => ["deck", "wall"].includes(kind));
    painter.scene.add(world.group);
    this.box = new THREE.Box3().setFromObject(world.group);
    this.flight.reach = this.box.getBoundingSphere(new THREE.Sphere()).radius;
    this.sky.fit(this.box);
    if (data.sunAt && String(data.sunAt) !== String(before?.sunAt)) this.sky.shine(...data.sunAt); // one that somebody moved stays
    arrangement.take(data);
    writeMarks(this);
    if (before) viewpoints.stay();
    arrangement.arrange();
    if (before) return;
    painter.resize();
    viewpoints.standAt(data.views[0].name, 0);
  }

  setLook(look) {
    this.looks.set(look);
    this.painter.draw();
  }

  setSun(from, height) {
    this.sky.shine(from, height);
    this.painter.draw();
  }
}
