// Where the eye stands: at the named view points of the roof, or close to a piece.

import { THREE } from "nicegui-scene";
import { around, seesAll, wholeOf } from "trimwright/seen/flight.js";
import { writeNotes } from "trimwright/seen/notes.js";

export class Viewpoints {
  constructor(view) {
    this.view = view;
    this.current = null; // the view point where the eye stands
  }

  hides(name) {
    return Boolean(this.current?.hidden.has(name));
  }

  // Goes to a named view point and shows what it shows.
  standAt(name, milliseconds) {
    const { data, looks, arrangement, flight } = this.view;
    const found = data.views.find((one) => one.name === name);
    if (!found) return null;
    this.current = taken(found);
    looks.apart = found.coloring === "pieces";
    arrangement.shown.marks = found.marks;
    arrangement.select(found.highlight[0] ?? null);
    writeNotes(this.view, found);
    flight.to(found, milliseconds);
    return found;
  }

  // Stands where it stood, on another roof; a view point that this does not have is left.
  stay() {
    const { data, flight } = this.view;
    if (!this.current?.name) return;
    const found = data.views.find((one) => one.name === this.current.name);
    if (!found) return this.leave();
    this.current = taken(found);
    writeNotes(this.view, this.current);
    if (flight.shot) flight.to(found, 0);
  }

  // Leaves a view point: the eye stays, all is shown again.
  leave() {
    if (!this.current) return;
    this.current = null;
    this.view.overlay.clear("viewpoint");
    this.view.arrangement.arrange();
  }

  // Sees the whole roof again, from the side where the eye is, when not all of it is in the picture.
  fit() {
    const { box, camera, controls, flight } = this.view;
    if (seesAll(camera, box)) return;
    this.leave();
    flight.to(wholeOf(box, camera.position.clone().sub(controls.target)));
  }

  // Looks at a piece, or at one end of it, from outside; without the panels when it lies under them.
  lookAt(mark, end = null, milliseconds) {
    const piece = this.view.pieces.get(mark);
    if (!piece) return;
    this.bareFor(piece);
    const { middle, along, facing, size } = piece;
    const at = new THREE.Vector3(...middle), way = new THREE.Vector3(...facing);
    if (end) {
      const side = new THREE.Vector3(...along).multiplyScalar(end === "low" ? -1 : 1);
      at.addScaledVector(side, 0.5 * size);
      way.addScaledVector(side, 0.45);
    }
    this.view.flight.to(around(at, end ? 0.32 : Math.max(size * 0.62, 0.8), way), milliseconds);
  }

  // Looks at a point closely, from where the nearest piece faces.
  lookAtPoint(point, mark, milliseconds) {
    const { pieces, camera, controls, flight } = this.view;
    this.bareFor(pieces.get(mark));
    const facing = pieces.get(mark)?.facing ?? camera.position.clone().sub(controls.target).toArray();
    flight.to(around(new THREE.Vector3(...point), 0.75, new THREE.Vector3(...facing)), milliseconds);
  }

  bareFor(piece) {
    this.leave();
    if (!piece?.covered) return; // it is seen well with the panels on
    this.current = { panels: false, hidden: new Set(), labels: [], lines: [] };
    this.view.arrangement.arrange();
  }
}

const taken = (viewpoint) => ({ ...viewpoint, hidden: new Set(viewpoint.hidden) });
