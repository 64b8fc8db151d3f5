// A side of the outline lit up on the roof, and the side that a piece of trim lies over.

import { THREE } from "nicegui-scene";

const GROUP = "outline side";

export function lightSide({ roof: { view }, state: { outline } }, side) {
  if (!view.overlay) return;
  view.overlay.clear(GROUP);
  for (const { side: own, seen } of outline?.edges ?? []) {
    if (side && own === side) view.overlay.stroke({ kind: "side", group: GROUP, points: seen.map((point) => new THREE.Vector3(...point)) });
  }
  view.painter.draw();
}

// The side that a run lies over; nothing for what lies between two faces.
export const sideUnder = ({ state: { outline } }, run) => outline?.edges.find(({ name }) => name === run)?.side ?? null;
