// Fingers, mouse and keys: what is a tap and what is a drag, and turning the roof without either.

import { hitAt, pickAt } from "trimwright/seen/pick.js";

const FINGER = 14, MOUSE = 5; // pixels round the place that was tapped
const STILL = 8; // a tap moves less than this

export function watchFingers(view) {
  let down = null;
  const pointers = new Set();
  view.host.addEventListener("pointerdown", (event) => {
    pointers.add(event.pointerId);
    // a second finger is no tap
    down = pointers.size === 1 ? { x: event.clientX, y: event.clientY, tap: event.target.closest?.(".tw-note")?.tap } : null;
  });
  const up = (event) => pointers.delete(event.pointerId);
  addEventListener("pointercancel", up);
  addEventListener("pointerup", up);
  view.host.addEventListener("pointerup", (event) => {
    const near = down && Math.hypot(event.clientX - down.x, event.clientY - down.y) < STILL;
    if (near && event.button === 0) down.tap ? down.tap()
      : tapped(view, event.clientX, event.clientY, event.pointerType === "mouse" ? MOUSE : FINGER);
    down = null;
  });
}

export function watchKeys(view) {
  const turns = { ArrowLeft: [-0.12, 0], ArrowRight: [0.12, 0], ArrowUp: [0, -0.09], ArrowDown: [0, 0.09], "+": [0, 0, 0.85],
    "=": [0, 0, 0.85], "-": [0, 0, 1.18] };
  view.host.addEventListener("keydown", (event) => {
    if (event.target !== view.host || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Home") view.viewpoints.standAt(view.data.views[0].name);
    else if (turns[event.key]) view.flight.turn(...turns[event.key]);
    else return;
    event.preventDefault();
  });
}

// A tap with a finger or a mouse that may be off by `reach` pixels: whoever listens may use it; else it picks.
function tapped(view, x, y, reach) {
  if (view.painter.other) return;
  const tap = new CustomEvent("tap",
    { detail: { x, y, reach, hit: () => hitAt(view, x, y) ?? pickAt(view, x, y, reach) }, cancelable: true });
  if (!view.dispatchEvent(tap)) return;
  const hit = pickAt(view, x, y, reach);
  const kind = hit?.body.userData.kind, name = hit?.name;
  const mark = kind === "trim" ? name : null;
  view.arrangement.select(mark);
  view.dispatchEvent(new CustomEvent("pick", { detail: hit ? { mark, kind, name, point: hit.point.toArray() } : null }));
}
