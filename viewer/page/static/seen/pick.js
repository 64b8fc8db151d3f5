// What lies under a finger. Trim is one to three pixels wide on a phone, so a ring round the finger counts, too.

import { THREE } from "nicegui-scene";

const ray = new THREE.Raycaster();

// The nearest thing seen at a place of the canvas: {body, name, point}, or null.
export function hitAt(view, x, y) {
  return nearest(view, x, y, () => true);
}

// The trim under the finger or up to `reach` pixels from it; else whatever is right under it.
export function pickAt(view, x, y, reach) {
  const straight = hitAt(view, x, y);
  if (isTrim(straight?.body)) return straight;
  for (const r of [reach / 2, reach]) {
    for (let k = 0; k < 8; k++) {
      const at = [x + r * Math.cos((k * Math.PI) / 4), y + r * Math.sin((k * Math.PI) / 4)];
      if (!nearest(view, ...at, isTrim)) continue; // most often there is none, and panels have many faces
      const hit = hitAt(view, ...at);
      if (isTrim(hit.body)) return hit;
    }
  }
  return straight;
}

const isTrim = (body) => body?.userData.kind === "trim";

function nearest(view, x, y, counts) {
  const box = view.canvas.getBoundingClientRect();
  ray.setFromCamera(new THREE.Vector2(((x - box.left) / box.width) * 2 - 1, 1 - ((y - box.top) / box.height) * 2), view.camera);
  const seen = view.world.bodies.filter((mesh) => mesh.visible && counts(mesh)); // a ray also hits what is hidden
  const hit = ray.intersectObjects(seen, false)[0];
  return hit ? { body: hit.object, name: nameOf(hit), point: hit.point } : null;
}

// A piece's mark; of the panels of a face, which are one body, the name of the one that was hit.
function nameOf({ object: { userData: { name, panels } }, faceIndex }) {
  return panels?.findLast(([, first]) => first <= faceIndex)[0] ?? name;
}

// The corner of the hit body nearest to the finger, within `reach` pixels; else the point that was hit.
export function snapped(view, hit, x, y, reach) {
  const box = view.canvas.getBoundingClientRect();
  const at = hit.body.geometry.getAttribute("position"), corner = new THREE.Vector3(), seen = new THREE.Vector3();
  let best = reach, found = hit.point;
  for (let i = 0; i < at.count; i++) {
    corner.fromBufferAttribute(at, i).add(hit.body.position);
    seen.copy(corner).project(view.camera);
    const far = Math.hypot(box.left + ((seen.x + 1) / 2) * box.width - x, box.top + ((1 - seen.y) / 2) * box.height - y);
    if (far < best && corner.distanceTo(view.camera.position) < hit.point.distanceTo(view.camera.position) + 0.05) {
      best = far;
      found = corner.clone();
    }
  }
  return found;
}

// Whether house or panels stand between the eye and a point.
export function hidden(view, point) {
  const way = point.clone().sub(view.camera.position);
  const far = way.length();
  ray.set(view.camera.position, way.normalize());
  ray.far = far - 0.12;
  const hit = ray.far > 0 && ray.intersectObjects(view.walls.filter((mesh) => mesh.visible), false).length > 0;
  ray.far = Infinity;
  return hit;
}
