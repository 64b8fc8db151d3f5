// Moving the eye: from where it is to where a view is seen best, at once where motion is not wanted.

import { THREE } from "nicegui-scene";

const WIDEST = 0.7; // angle of view from top to bottom, radians
const FLIGHT = 700; // milliseconds
const MARGIN = 1.06; // round a box that is seen whole
const still = matchMedia("(prefers-reduced-motion: reduce)");
const eased = (t) => t * t * (3 - 2 * t);

const wantsStill = () => still.matches;

// Calls each(0..1) on every frame for so many milliseconds, then end. Returns a way to stop it where it is.
export function animate(milliseconds, each, end = () => {}) {
  if (wantsStill() || milliseconds <= 0) {
    each(1);
    end();
    return () => {};
  }
  let frame, start;
  const tick = (now) => {
    start ??= now;
    const t = Math.min((now - start) / milliseconds, 1);
    each(eased(t));
    if (t < 1) frame = requestAnimationFrame(tick);
    else end();
  };
  frame = requestAnimationFrame(tick);
  return () => cancelAnimationFrame(frame);
}

export class Flight {
  constructor(camera, controls, drawn) {
    Object.assign(this, { camera, controls, drawn, shot: null, flying: false, reach: 1, stop: () => {} });
    controls.addEventListener("start", () => this.left());
  }

  // shot: {eye, target, up} in meters and the least {width, height} to see at the target.
  to(shot, milliseconds = FLIGHT) {
    const { camera, controls } = this;
    this.stop();
    this.shot = shot;
    this.flying = milliseconds > 0;
    const target = new THREE.Vector3(...shot.target);
    const back = new THREE.Vector3(...shot.eye).sub(target);
    const span = Math.max(shot.height, shot.width / camera.aspect);
    let far = back.length(), angle = 2 * Math.atan(span / 2 / far);
    if (angle > WIDEST) {
      angle = WIDEST;
      far = span / 2 / Math.tan(angle / 2);
    }
    back.setLength(far);
    const from = { target: controls.target.clone(), back: camera.position.clone().sub(controls.target), fov: camera.fov };
    const turn = new THREE.Quaternion().setFromUnitVectors(from.back.clone().normalize(), back.clone().normalize());
    const none = new THREE.Quaternion(), part = new THREE.Quaternion();
    const near = from.back.length();
    const fov = (angle * 180) / Math.PI;
    this.stop = animate(milliseconds, (t) => {
      if (t === 1) controls.target.copy(target), camera.position.copy(target).add(back), (camera.fov = fov);
      else {
        part.slerpQuaternions(none, turn, t);
        controls.target.lerpVectors(from.target, target, t);
        const way = from.back.clone().normalize().applyQuaternion(part);
        camera.position.copy(controls.target).addScaledVector(way, near * Math.pow(far / near, t));
        camera.fov = from.fov + (fov - from.fov) * t;
      }
      this.settle();
    }, () => (this.flying = false));
  }

  // Keeps the nearest and farthest that is drawn in step with the distance, so that thin layers don't flicker.
  settle() {
    const { camera, controls } = this;
    const far = camera.position.distanceTo(controls.target);
    camera.near = Math.max(0.02, far * 0.03);
    camera.far = far + this.reach * 8;
    camera.updateProjectionMatrix();
    controls.update();
    camera.updateMatrixWorld();
    this.drawn();
  }

  // When the picture gets another shape, the last shot fills it again; an eye that was moved by hand since then
  // sees as much as before in the narrower direction.
  reshape(aspect) {
    const { camera } = this;
    const old = camera.aspect;
    camera.aspect = aspect;
    if (this.shot) return this.to(this.shot, this.flying ? FLIGHT : 0);
    camera.fov = 2 * Math.atan((Math.tan((camera.fov * Math.PI) / 360) * Math.min(1, old)) / Math.min(1, aspect)) * (180 / Math.PI);
    camera.updateProjectionMatrix();
  }

  left() {
    this.stop();
    this.shot = null;
    this.flying = false;
  }

  // Turns by so many radians round the target, and comes nearer by a factor.
  turn(side, up, nearer = 1) {
    this.left();
    const { camera, controls } = this;
    const round = new THREE.Spherical().setFromVector3(camera.position.clone().sub(controls.target));
    round.theta += side;
    round.phi = Math.min(Math.max(round.phi + up, 0.05), Math.PI - 0.1);
    round.radius *= nearer;
    camera.position.setFromSpherical(round).add(controls.target);
    this.settle();
  }
}

// The shot that sees a sphere from a direction.
export function around(middle, radius, direction) {
  const eye = middle.clone().addScaledVector(direction.clone().normalize(), radius * 4.5);
  return { eye: eye.toArray(), target: middle.toArray(), width: radius * 2, height: radius * 2 };
}

// The shot that sees a box from a direction, filled by it.
export function wholeOf(box, direction) {
  const target = box.getCenter(new THREE.Vector3());
  const far = box.getBoundingSphere(new THREE.Sphere()).radius * 4.5;
  const eye = target.clone().addScaledVector(direction.clone().normalize(), far);
  const turn = new THREE.Matrix4().lookAt(eye, target, new THREE.Vector3(0, 1, 0)).transpose();
  const seen = corners(box).map((corner) => corner.sub(target).applyMatrix4(turn));
  const [width, height] = ["x", "y"].map((side) =>
    2 * MARGIN * Math.max(...seen.map((one) => (Math.abs(one[side]) * far) / (far - one.z))));
  return { eye: eye.toArray(), target: target.toArray(), width, height };
}

// Whether all of a box is in the picture.
export function seesAll(camera, box) {
  return corners(box).every((corner) => {
    const { x, y, z } = corner.project(camera);
    return Math.abs(x) <= 1 && Math.abs(y) <= 1 && z <= 1;
  });
}

function corners({ min, max }) {
  const found = [];
  for (const x of [min.x, max.x]) for (const y of [min.y, max.y]) for (const z of [min.z, max.z]) found.push(new THREE.Vector3(x, y, z));
  return found;
}
