// The tool that cuts through the roof: a tap on metal, and the cut square across the trim that is nearest is drawn.

import { THREE } from "nicegui-scene";
import { say } from "trimwright/common/words.js";
import { cutSheet } from "trimwright/read/cut_through.js";
import { slices } from "trimwright/seen/slice.js";

const NEAR = 0.45; // meters from the tap to trim that is still meant

export function cutTool(app) {
  let done;
  return {
    start(end) {
      done = end;
      app.ask(say("Cut through: tap where to cut"), done);
    },
    stop: () => app.ask(null),
    tap({ hit }) {
      const found = hit();
      const cut = found && cutAt(app.view, found.point);
      if (!cut) return app.ask(say("No metal near there: tap on trim or on a panel"), done);
      done();
      app.put("cut", () => cutSheet(app, cut));
    },
  };
}

// The cut square across the trim nearest to a point, with everything that it goes through nearby.
function cutAt(view, point) {
  let piece = null, nearest = NEAR;
  for (const one of view.pieces.values()) {
    if (!one.body.visible) continue;
    const far = new THREE.Box3().setFromObject(one.body).distanceToPoint(point);
    if (far < nearest) [piece, nearest] = [one, far];
  }
  if (!piece) return null;
  const normal = new THREE.Vector3(...piece.along);
  const up = new THREE.Vector3(0, 1, 0).addScaledVector(normal, -normal.y).normalize();
  const out = new THREE.Vector3().crossVectors(up, normal);
  if (out.dot(new THREE.Vector3(...piece.facing)) < 0) out.negate();
  return { piece, layers: slices(view, point, { normal, up, out }) };
}
