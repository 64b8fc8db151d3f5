// Painting what stands in front of the house in a photograph, such as a tree: with finger or mouse, by a brush or an
// eraser, each stroke undone by itself. Two fingers move the picture.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { address } from "trimwright-app/asking.js";

const PAINT = [255, 205, 36];
const SIZES = { min: 6, max: 120, value: 36 }; // pixels of the screen that the brush is wide

// done: (png) => … with the mask as a file: white where something stands in front, black elsewhere.
export function paintMask(workspace, found, done) {
  const [width, height] = found.size, sheet = { strokes: [], base: null, erase: false };
  const src = (what) => `${address(workspace, what)}?which=kept&at=${Date.now()}`;
  const image = make("img", { alt: say("The photograph"), draggable: "false", src: src("photo/picture") });
  const canvas = make("canvas", { class: "tw-mask", width, height, role: "img", "aria-label": say("What is painted over the photograph") });
  const paper = make("div", { class: "tw-tap-paper tw-mask-paper" }, image, canvas), room = make("div", { class: "tw-tap-room" }, paper);
  const size = make("input", { type: "range", ...SIZES, "aria-label": say("Width of the brush") });
  const tool = (erase, text) => button(text, () => pick(erase), { class: "tw-chip", "aria-pressed": String(!erase) });
  const tools = [tool(false, say("Brush")), tool(true, say("Eraser"))];
  const undo = button(say("Undo"), () => (sheet.strokes.pop(), show()), { class: "tw-chip" });
  const larger = button(say("Larger"), () => larger.setAttribute("aria-pressed", String(paper.classList.toggle("tw-larger"))),
    { class: "tw-chip", "aria-pressed": "false" });
  const end = () => (el.remove(), workspace.roof.app.sheet.focus?.());
  const use = button(say("Use this"), async () => (end(), done(await maskOf(canvas))), { class: "tw-main" });
  const el = make("section",
    { class: "tw-tapping", role: "dialog", "aria-modal": "true", "aria-label": say("Paint what stands in front"), onkeydown: (event) =>
      event.key === "Escape" && (event.stopPropagation(), end()) },
    make("div", { class: "tw-tap-head" },
      make("div", { class: "tw-tap-asks" },
        make("p", { class: "tw-tap-says", text: say("Paint over what stands in front of the roof, such as a tree.") }),
        make("div", { class: "tw-chips" }, tools, undo, larger, make("label", { class: "tw-brush" }, size)))),
    room, make("div", { class: "tw-pair" }, button(say("Cancel"), end, { class: "tw-plain" }), use));
  const pick = (erase) => {
    sheet.erase = erase;
    tools.forEach((one, i) => one.setAttribute("aria-pressed", String(Boolean(i) === erase)));
  };
  const show = () => {
    redraw(canvas, sheet);
    undo.disabled = !sheet.strokes.length;
  };
  watchBrush({ canvas, room, sheet, show, wide: () => (Number(size.value) * width) / canvas.getBoundingClientRect().width });
  if (found.front) begin(src("photo/front"), canvas).then((base) => ((sheet.base = base), show()));
  workspace.host.append(el);
  show();
  tools[0].focus();
}

function watchBrush({ canvas, room, sheet, show, wide }) {
  const fingers = new Map();
  let stroke = null;
  const spot = ({ clientX, clientY }) => {
    const box = canvas.getBoundingClientRect();
    return [((clientX - box.left) / box.width) * canvas.width, ((clientY - box.top) / box.height) * canvas.height];
  };
  canvas.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (fingers.size > 1) {
      if (stroke) sheet.strokes.splice(sheet.strokes.indexOf(stroke), 1); // the first of two fingers was no stroke
      stroke = null;
    } else sheet.strokes.push((stroke = { erase: sheet.erase, wide: wide(), points: [spot(event)] }));
    show();
  });
  canvas.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (fingers.size > 1) room.scrollBy((before[0] - event.clientX) / fingers.size, (before[1] - event.clientY) / fingers.size);
    if (!stroke) return;
    stroke.points.push(...(event.getCoalescedEvents?.() ?? []).map(spot), spot(event));
    show();
  });
  const up = (event) => {
    fingers.delete(event.pointerId);
    if (!fingers.size) stroke = null;
  };
  canvas.addEventListener("pointerup", up);
  canvas.addEventListener("pointercancel", up);
}

function redraw(canvas, { base, strokes }) {
  const pen = canvas.getContext("2d");
  pen.globalCompositeOperation = "source-over";
  pen.clearRect(0, 0, canvas.width, canvas.height);
  if (base) pen.drawImage(base, 0, 0);
  for (const { erase, wide, points } of strokes) {
    pen.globalCompositeOperation = erase ? "destination-out" : "source-over";
    Object.assign(pen, { lineWidth: wide, lineCap: "round", lineJoin: "round", strokeStyle: `rgb(${PAINT})` });
    pen.beginPath();
    pen.moveTo(...points[0]);
    for (const point of points.length > 1 ? points.slice(1) : points) pen.lineTo(...point);
    pen.stroke();
  }
}

// A mask from before, as paint on a canvas.
async function begin(src, { width, height }) {
  const image = make("img", { src });
  await image.decode();
  const base = make("canvas", { width, height }), pen = base.getContext("2d");
  pen.drawImage(image, 0, 0, width, height);
  const data = pen.getImageData(0, 0, width, height), { data: bytes } = data;
  for (let i = 0; i < bytes.length; i += 4) [bytes[i], bytes[i + 1], bytes[i + 2], bytes[i + 3]] = [...PAINT, bytes[i]];
  pen.putImageData(data, 0, 0);
  return base;
}

// White where there is paint, black elsewhere, as a PNG.
function maskOf(canvas) {
  const { width, height } = canvas, paper = make("canvas", { width, height }), pen = paper.getContext("2d");
  pen.drawImage(canvas, 0, 0);
  pen.globalCompositeOperation = "source-in";
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, width, height);
  pen.globalCompositeOperation = "destination-over";
  pen.fillStyle = "#000";
  pen.fillRect(0, 0, width, height);
  return new Promise((made) => paper.toBlob(made, "image/png"));
}
