// Tapping corners of the roof in a photograph: one is asked for after the other, shown by a dot on the roof as it is drawn.

import { THREE } from "nicegui-scene";
import { button, draw, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { address } from "trimwright-app/asking.js";

const HINT = [260, 170]; // width and height of the roof that shows which corner is meant, pixels
const LEAST = 4; // taps
const STILL = 8; // pixels that a tap may move

// found: {corners, points, size}; done: (points) => … when they are to be used.
export function tapCorners(workspace, found, done) {
  const points = new Map(found.points.map((point) => [String(point.corner), point.at]));
  const { corners, size: [wide, high] } = found;
  let asked = corners.findIndex(({ corner }) => !points.has(String(corner)));
  const image = make("img",
    { alt: say("The photograph"), draggable: "false", src: address(workspace, `photo/picture?which=kept&at=${Date.now()}`) });
  const marks = draw("svg", { class: "tw-taps", viewBox: `0 0 ${wide} ${high}`, "aria-hidden": "true" });
  const paper = make("div", { class: "tw-tap-paper" }, image, marks);
  const scroll = make("div", { class: "tw-tap-room" }, paper);
  const says = make("p", { class: "tw-tap-says", role: "status" });
  const hint = make("canvas", { width: HINT[0], height: HINT[1], class: "tw-tap-hint", "aria-hidden": "true" });
  const shown = cornersSeen(workspace.roof.view, corners);
  const end = () => (el.remove(), workspace.roof.app.sheet.focus?.());
  const tapped = () => corners.map(({ corner }) => ({ corner, at: points.get(String(corner)) })).filter(({ at }) => at);
  const use = button(say("Use these taps"), () => (end(), done(tapped())), { class: "tw-main" });
  const larger = button(say("Larger"), () => paper.classList.toggle("tw-larger"), { class: "tw-chip" });
  const move = (by) => ((asked = (asked + by + corners.length) % corners.length), put());
  const forget = button(say("Not this one"), () => (points.delete(String(corners[asked].corner)), move(1)), { class: "tw-chip" });
  const el = make("section",
    { class: "tw-tapping", role: "dialog", "aria-modal": "true", "aria-label": say("Tap corners of the roof"), onkeydown: (event) =>
      event.key === "Escape" && (event.stopPropagation(), end()) },
    make("div", { class: "tw-tap-head" }, hint, make("div", { class: "tw-tap-asks" }, says, make("div", { class: "tw-chips" },
      button(say("Before"), () => move(-1), { class: "tw-chip" }), forget, button(say("Next"), () => move(1), { class: "tw-chip" }),
        larger))),
    scroll, make("div", { class: "tw-pair" }, button(say("Cancel"), end, { class: "tw-plain" }), use));
  if (asked < 0) asked = 0;

  function put() {
    const { says: words } = corners[asked];
    says.textContent = say("Tap the corner {corner}.", { corner: words });
    use.disabled = points.size < LEAST;
    use.textContent = points.size < LEAST ? say("{count} of {least} taps", { count: points.size, least: LEAST }) : say("Use these taps");
    const arm = wide / 45;
    marks.replaceChildren(...corners.flatMap(({ corner }, i) => {
      const at = points.get(String(corner));
      return at ? [cross(at, arm, i === asked)] : [];
    }));
    shown(hint, asked);
  }

  onTap(image, ([x, y]) => {
    points.set(String(corners[asked].corner), [x * wide, y * high]);
    const next = corners.findIndex(({ corner }) => !points.has(String(corner)));
    if (next >= 0) asked = next;
    put();
  });
  workspace.host.append(el);
  put();
  use.focus();
}

// Calls tapped([x, y]) with where an element is tapped, as shares of its width and height; a drag is no tap.
function onTap(el, tapped) {
  let down = null;
  el.addEventListener("pointerdown", (event) => (down = [event.clientX, event.clientY]));
  el.addEventListener("pointerup", ({ clientX, clientY }) => {
    if (!down || Math.hypot(clientX - down[0], clientY - down[1]) > STILL) return;
    const box = el.getBoundingClientRect();
    tapped([(clientX - box.left) / box.width, (clientY - box.top) / box.height]);
  });
}

const cross = ([x, y], arm, now) =>
  draw("path", { class: now ? "tw-tap-now" : "tw-tap", d: `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}` });

// Draws the roof with a dot where a corner is: from the front, or from the back where it cannot be seen from there.
function cornersSeen(view, corners) {
  const { camera, box } = view, middle = box.getCenter(new THREE.Vector3());
  const sides = [1, -1].map((side) => {
    const eye = new THREE.PerspectiveCamera(camera.fov, HINT[0] / HINT[1], 0.1, 1000);
    const reach = box.getBoundingSphere(new THREE.Sphere()).radius;
    eye.fov = 26;
    eye.position.copy(middle).add(new THREE.Vector3(0.75 * side, 0.55, side).normalize().multiplyScalar(reach * 4.8));
    eye.lookAt(middle);
    eye.updateProjectionMatrix();
    eye.updateMatrixWorld();
    return { eye, picture: view.painter.seenBy(eye, ...HINT) };
  });
  return (canvas, number) => {
    const point = new THREE.Vector3(...corners[number].point);
    const [front, back] = sides, near = ({ eye }) => eye.position.distanceTo(point);
    const { eye, picture } = near(front) <= near(back) ? front : back;
    const at = point.project(eye), pen = canvas.getContext("2d");
    pen.drawImage(picture, 0, 0, ...HINT);
    pen.beginPath();
    pen.arc(((at.x + 1) / 2) * HINT[0], ((1 - at.y) / 2) * HINT[1], 9, 0, 2 * Math.PI);
    pen.fillStyle = "#ffcd24";
    pen.strokeStyle = "#14212b";
    pen.lineWidth = 3;
    pen.fill();
    pen.stroke();
  };
}
