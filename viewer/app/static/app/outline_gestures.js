// Fingers and mouse on the plan of an outline: a corner is dragged, a side is dragged square to itself; a tap chooses, and
// a tap on the chosen side makes an eave of a gable or a gable of an eave.

import { WIDTH, sidesOf } from "trimwright-app/outline_plan.js";

const CORNER = 22, SIDE = 18; // pixels of the screen round what is touched
const STILL = 5; // pixels that a tap may move
const ALIGNED = 7; // pixels within which a corner comes into line with another

export function watchPlan(field) {
  const { plan: { el } } = field;
  let drag = null;
  el.addEventListener("pointerdown", (event) => {
    const hit = event.isPrimary && event.button === 0 && hitAt(field, event);
    if (!hit) return;
    el.setPointerCapture(event.pointerId);
    drag = { hit, from: spot(field, event), moved: false, rings: field.rings };
    field.hold(true);
  });
  el.addEventListener("pointermove", (event) => {
    if (!drag) return event.pointerType === "mouse" && field.point(hitAt(field, event)?.side ?? null);
    const at = spot(field, event);
    if (!drag.moved && Math.hypot(at[0] - drag.from[0], at[1] - drag.from[1]) < STILL * perPixel(field)) return;
    drag.moved = true;
    move(field, drag, at);
  });
  // What is dragged must not scroll the sheet; beside corners and sides a finger may.
  el.addEventListener("touchstart", (event) => event.touches.length === 1 && hitAt(field, event.touches[0]) && event.preventDefault(),
    { passive: false });
  el.addEventListener("pointerup", () => end(true));
  el.addEventListener("pointercancel", () => end(false));
  el.addEventListener("pointerleave", () => drag || field.point(null));
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && drag) (event.stopPropagation(), end(false));
  }, true);

  function end(take) {
    const done = drag;
    drag = null;
    if (!done) return;
    if (!done.moved) return field.hold(false), take && tapped(field, done.hit);
    const moved = (done.moving ?? []).map(([ring, k]) => [ring, k, ...field.rings[ring][k]]);
    if (take && moved.length) {
      field.hold(false);
      field.rings = moving(done.rings, moved); // until the answer is there
      return field.edit({ what: "move", corners: moved }, done.hit.corner ? { corner: done.hit.corner } : { side: done.hit.side });
    }
    field.rings = done.rings;
    field.hold(false);
    field.choose(field.chosen);
  }
}

const moving = (rings, moved) =>
  rings.map((ring, r) => ring.map((corner, k) => moved.find(([at, i]) => at === r && i === k)?.slice(2) ?? corner));

function tapped(field, { side, corner }) {
  if (side && field.chosen.side === side) return field.turn(side);
  field.choose(corner ? { corner } : { side });
}

// Where a finger is, in inches of the plan; and how many units of the picture are a pixel of the screen.
function spot({ plan }, event) {
  const box = plan.el.getBoundingClientRect(), k = WIDTH / box.width;
  return [(event.clientX - box.left) * k, (event.clientY - box.top) * k];
}

const perPixel = ({ plan }) => WIDTH / plan.el.getBoundingClientRect().width;

function hitAt(field, event) {
  const at = spot(field, event), { put } = field.plan, k = perPixel(field);
  if (!put) return null;
  let best = null, least = CORNER * k;
  field.rings.forEach((ring, r) => ring.forEach((corner, i) => {
    const [x, y] = put(corner), far = Math.hypot(x - at[0], y - at[1]);
    if (far < least) (least = far), (best = { corner: [r, i] });
  }));
  if (best) return best;
  least = SIDE * k;
  for (const { number, from, to } of sidesOf(field.rings)) {
    const far = farFrom(at, put(from), put(to));
    if (far < least) (least = far), (best = { side: number });
  }
  return best;
}

function farFrom([x, y], [ax, ay], [bx, by]) {
  const [wx, wy] = [bx - ax, by - ay], share = Math.min(Math.max(((x - ax) * wx + (y - ay) * wy) / (wx * wx + wy * wy || 1), 0), 1);
  return Math.hypot(x - ax - share * wx, y - ay - share * wy);
}

// Puts what is dragged where the finger is, on even lengths and in line with other corners.
function move(field, drag, at) {
  const { plan: { back, scale } } = field, step = field.told.step;
  const now = back(at), from = back(drag.from), by = [now[0] - from[0], now[1] - from[1]];
  const rings = drag.rings.map((ring) => ring.map((corner) => [...corner]));
  const guides = [];
  if (drag.hit.corner) {
    const [r, k] = drag.hit.corner, old = drag.rings[r][k];
    rings[r][k] = [0, 1].map((axis) => inLine(drag.rings, [r, k], axis, old[axis] + by[axis], step, ALIGNED / scale, guides));
    drag.moving = [[r, k, (k - 1 + rings[r].length) % rings[r].length]];
    for (const guide of guides) guide.push(rings[r][k]);
  } else {
    const { ring, k, from: a, to: b, long } = sidesOf(drag.rings)[drag.hit.side - 1], next = (k + 1) % rings[ring].length;
    const out = [(b[1] - a[1]) / long, -(b[0] - a[0]) / long];
    const far = Math.round((by[0] * out[0] + by[1] * out[1]) / step) * step;
    for (const i of [k, next]) rings[ring][i] = rings[ring][i].map((value, axis) => value + far * out[axis]);
    drag.moving = [[ring, k, (k - 1 + rings[ring].length) % rings[ring].length], [ring, next, k]];
  }
  field.rings = rings;
  const { told, length } = field;
  field.plan.draw({ rings, told, chosen: drag.hit, length, dragged: { side: drag.hit.side, corners: drag.moving }, guides });
}

function inLine(rings, [r, k], axis, value, step, reach, guides) {
  const others = rings.flatMap((ring, i) => ring.filter((_, j) => i !== r || j !== k));
  const near = others.filter((corner) => Math.abs(corner[axis] - value) < reach).sort((a, b) =>
    Math.abs(a[axis] - value) - Math.abs(b[axis] - value))[0];
  if (!near) return Math.round(value / step) * step;
  guides.push([near]);
  return near[axis];
}
