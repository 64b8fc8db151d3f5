// Where a plane cuts the bodies of the roof: for each one the segments of its cut, in inches in that plane.

import { THREE } from "nicegui-scene";
import { OUTSIDE } from "trimwright/seen/looks.js";

const INCHES = 1 / 0.0254;
const REACH = 9 * 0.0254; // how far from the tapped point a body is still of interest, meters
const JOIN = 1e4; // ends nearer than an inch over this are one

// Returns [{kind, name, step, parts: [{a, b, side}]}] in the order of setting; a and b are {x, y} inches, and the
// outside of the metal is on the left, going from a to b.
export function slices(view, point, { normal, up, out }) {
  const found = [];
  const sphere = new THREE.Sphere(point, REACH), own = new THREE.Sphere();
  for (const mesh of view.world.bodies) {
    if (!mesh.visible || OUTSIDE.has(mesh.userData.kind)) continue;
    own.copy(mesh.geometry.boundingSphere);
    own.center.add(mesh.position);
    if (!own.intersectsSphere(sphere)) continue;
    const parts = cutBody(mesh, point, normal, up, out).filter(({ a, b }) => Math.min(Math.hypot(a.x, a.y), Math.hypot(b.x, b.y)) < 14
      || crosses(a, b));
    if (parts.length) found.push({ kind: mesh.userData.kind, name: mesh.userData.name, step: mesh.userData.step, parts });
  }
  const layer = { deck: -3, fascia: -4, wall: -5 };
  return found.sort((a, b) => (layer[a.kind] ?? a.step) - (layer[b.kind] ?? b.step));
}

const crosses = (a, b) => a.x * b.x < 0 || a.y * b.y < 0;

function cutBody(mesh, point, normal, up, out) {
  const at = mesh.geometry.getAttribute("position"), side = mesh.geometry.getAttribute("_side"), index = mesh.geometry.index;
  const origin = point.clone().sub(mesh.position);
  const p = new THREE.Vector3();
  const away = new Float64Array(at.count);
  for (let i = 0; i < at.count; i++) away[i] = p.fromBufferAttribute(at, i).sub(origin).dot(normal) || 1e-9;
  const parts = [];
  for (let t = 0; t < index.count; t += 3) {
    const corner = [index.getX(t), index.getX(t + 1), index.getX(t + 2)];
    const ends = [];
    for (let k = 0; k < 3; k++) {
      const i = corner[k], j = corner[(k + 1) % 3];
      if (away[i] > 0 === away[j] > 0) continue;
      const [low, high] = i < j ? [i, j] : [j, i]; // the same edge gives the same point, whichever triangle asks
      const share = away[low] / (away[low] - away[high]);
      const a = new THREE.Vector3().fromBufferAttribute(at, low), b = new THREE.Vector3().fromBufferAttribute(at, high);
      a.lerp(b, share).sub(origin).multiplyScalar(INCHES);
      ends.push(new THREE.Vector2(a.dot(out), a.dot(up)));
    }
    if (ends.length < 2 || ends[0].distanceToSquared(ends[1]) < 1e-12) continue;
    const [a, b, c] = corner.map((i) => new THREE.Vector3().fromBufferAttribute(at, i));
    const face = b.sub(a).cross(c.sub(a));
    const outward = new THREE.Vector2(face.dot(out), face.dot(up));
    const way = ends[1].clone().sub(ends[0]);
    const left = -way.y * outward.x + way.x * outward.y > 0;
    parts.push({ a: left ? ends[0] : ends[1], b: left ? ends[1] : ends[0], side: side.getX(corner[0]) });
  }
  return parts;
}

const key = (p) => `${Math.round(p.x * JOIN)},${Math.round(p.y * JOIN)}`;

// Strings segments together, each to the one that begins where it ends.
function chains(parts) {
  const begins = new Map();
  for (const part of parts) begins.set(key(part.a), [...(begins.get(key(part.a)) ?? []), part]);
  const ends = new Set(parts.map((part) => key(part.b)));
  const left = new Set(parts), found = [];
  const first = [...parts].sort((p, q) => ends.has(key(p.a)) - ends.has(key(q.a)));
  for (const start of first) {
    if (!left.has(start)) continue;
    const chain = [start.a];
    for (let part = start; part; ) {
      left.delete(part);
      chain.push(part.b);
      part = begins.get(key(part.b))?.find((one) => left.has(one));
    }
    found.push(chain);
  }
  return found;
}

// The closed outlines of a body's cut, as it is.
export const outlines = (layer) => chains(layer.parts);

// The same as bands along the painted side: from `under` less the thickness to `over`, inches off where it is.
export function banded(layer, thickness, under, over) {
  const painted = layer.parts.filter(({ side }) => side > 0.5);
  return chains(painted).map((chain) => {
    const line = simplified(chain);
    return [...offset(line, over), ...offset(line, under - thickness).reverse()];
  });
}

function simplified(chain) {
  return chain.filter((p, i) => i === 0 || i === chain.length - 1 || p.distanceTo(chain[i - 1]) > 1e-3);
}

// A line moved to its left.
function offset(line, by) {
  const normals = line.slice(1).map((p, i) => {
    const way = p.clone().sub(line[i]).normalize();
    return new THREE.Vector2(-way.y, way.x);
  });
  return line.map((p, i) => {
    const before = normals[Math.max(i - 1, 0)], after = normals[Math.min(i, normals.length - 1)];
    const middle = before.clone().add(after);
    const share = Math.max(1 + before.dot(after), 0.4);
    return p.clone().addScaledVector(middle, by / share);
  });
}
