// The painter: draws what is there onto the canvas, on demand only, which saves the phone's battery; one finish, or two
// side by side.

import { THREE } from "nicegui-scene";
import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { seesAll, wholeOf } from "trimwright/seen/flight.js";
import { OUTSIDE } from "trimwright/seen/looks.js";
import { Sharpness } from "trimwright/seen/sharpness.js";

export class Painter {
  constructor(view) {
    this.view = view;
    this.sharpness = new Sharpness(() => requestAnimationFrame(() => this.drawNow()));
    this.renderer = this.sharpness.renderer;
    this.canvas = this.renderer.domElement;
    this.canvas.setAttribute("aria-hidden", "true");
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(26, 1, 0.1, 500);
    this.other = null; // the finish beside that of the roof
    this.halves = [say("First"), say("Second")].map((text) => make("span", { class: "tw-half", text, hidden: true }));
  }

  draw() {
    this.pending ??= requestAnimationFrame(() => {
      this.pending = undefined;
      if (this.sharpness.slow) this.sharpness.coarse(() => this.paintPlain());
      else this.drawNow();
    });
  }

  drawNow() {
    this.sharpness.fine(() => this.paint());
  }

  // Shows another finish beside that of the roof; null for none.
  compareWith(look) {
    this.other = look;
    this.draw();
  }

  // Without the lines along the panels and on the house, which are many and faint.
  paintPlain() {
    const lines = this.view.world?.bodies.filter(({ userData: { kind } }) => kind === "pan" || OUTSIDE.has(kind)).map((mesh) =>
      mesh.userData.edges) ?? [];
    for (const one of lines) one.visible = false;
    this.paint();
    for (const one of lines) one.visible = true;
  }

  paint() {
    const { renderer, camera, scene, other, halves, view: { host, looks, overlay, sky, world } } = this;
    const { width, height } = this.size ?? {};
    if (!width || !world) return;
    sky.show(!looks.apart, !host.closest("[data-screen=sun]"));
    if (other) this.paintTwice(width, height);
    else renderer.render(scene, camera);
    overlay.box.hidden = Boolean(other);
    for (const half of halves) half.hidden = !other;
    if (!other) overlay.place();
  }

  // Two finishes, side by side where the picture is wide, one over the other where it is tall; each half sees all
  // that the whole did. Notes and taps would be out of place on it.
  paintTwice(width, height) {
    const { renderer, camera, scene, view: { looks } } = this;
    const wide = width > height;
    const [w, h] = wide ? [width / 2, height] : [width, height / 2];
    Object.assign(this.halves[1].style, wide ? { left: `${w}px`, top: 0 } : { left: 0, top: `${h}px` });
    const fov = camera.fov;
    if (wide) camera.fov = (360 / Math.PI) * Math.atan(2 * Math.tan((fov * Math.PI) / 360));
    camera.aspect = w / h;
    camera.updateProjectionMatrix();
    renderer.setScissorTest(true);
    [looks.look, this.other].forEach((look, half) => {
      const x = wide ? half * w : 0, y = wide ? 0 : (1 - half) * h;
      looks.use(look);
      renderer.setViewport(x, y, w, h);
      renderer.setScissor(x, y, w, h);
      renderer.render(scene, camera);
    });
    renderer.setScissorTest(false);
    renderer.setViewport(0, 0, width, height);
    Object.assign(camera, { fov, aspect: width / height });
    camera.updateProjectionMatrix();
    looks.use(looks.look);
  }

  // Draws once in another size, and returns that as a canvas; where the whole roof is seen, it fills that too. Without
  // a size, what is on the screen.
  snapshot(width, height) {
    const { renderer, camera, canvas, view } = this, { box, controls, flight, sky } = view;
    const taken = () => {
      const paper = copied(canvas, getComputedStyle(view.host));
      return this.other ? named(paper, this.halves, this.size.width > this.size.height) : paper;
    };
    if (!width) return (this.drawNow(), taken());
    const size = this.size, eye = camera.position.clone(), target = controls.target.clone(), { aspect, fov } = camera, { shot } = flight;
    const whole = seesAll(camera, box) ? wholeOf(box, eye.clone().sub(target)) : null;
    renderer.setPixelRatio(1);
    renderer.setSize(width, height, false);
    this.size = { width, height };
    if (whole) (camera.aspect = width / height), flight.to(whole, 0);
    else {
      const taller = Math.max(1, (aspect * height) / width);
      camera.aspect = width / height;
      camera.fov = (360 / Math.PI) * Math.atan(Math.tan((fov * Math.PI) / 360) * taller);
      camera.updateProjectionMatrix();
    }
    sky.stale();
    this.paint();
    const made = taken();
    this.size = size;
    renderer.setPixelRatio(this.sharpness.fineness);
    renderer.setSize(size.width, size.height);
    Object.assign(camera, { aspect, fov });
    camera.position.copy(eye);
    controls.target.copy(target);
    flight.shot = shot;
    flight.settle();
    this.drawNow();
    return made;
  }

  // What another camera sees, as a canvas; the view stays as it is.
  seenBy(eye, width, height) {
    const { renderer, canvas, scene, size, view } = this;
    renderer.setPixelRatio(2);
    renderer.setSize(width, height, false);
    renderer.render(scene, eye);
    const made = copied(canvas, getComputedStyle(view.host));
    renderer.setPixelRatio(this.sharpness.fineness);
    renderer.setSize(size.width, size.height);
    this.drawNow();
    return made;
  }

  resize() {
    const { host, flight } = this.view;
    const width = host.clientWidth, height = host.clientHeight;
    if (!width || !height) return;
    this.size = { width, height };
    this.view.dispatchEvent(new Event("resize"));
    this.renderer.setSize(width, height);
    flight.reshape(width / height);
    this.drawNow();
  }
}

// Writes the names of two finishes into a picture of both, where each begins.
function named(paper, halves, wide) {
  const pen = paper.getContext("2d"), size = Math.round(Math.min(paper.width, paper.height) * 0.032);
  pen.font = `700 ${size}px system-ui, sans-serif`;
  pen.textBaseline = "top";
  halves.forEach(({ textContent }, half) => {
    const x = wide ? (half * paper.width) / 2 : 0, y = wide ? 0 : (half * paper.height) / 2;
    pen.fillStyle = "#fffdf7";
    pen.fillRect(x + size / 2, y + size / 2, pen.measureText(textContent).width + size, size * 1.7);
    pen.fillStyle = "#14212b";
    pen.fillText(textContent, x + size, y + size * 0.85);
  });
  return paper;
}

// What is on a canvas, over the sky that the page has behind it.
function copied(canvas, style) {
  const { width, height } = canvas;
  const paper = make("canvas", { width, height }), pen = paper.getContext("2d"), sky = pen.createLinearGradient(0, 0, 0, height);
  ["--tw-sky-top", "--tw-sky-low"].forEach((name, stop) => sky.addColorStop(stop, style.getPropertyValue(name).trim() || "#ffffff"));
  pen.fillStyle = sky;
  pen.fillRect(0, 0, width, height);
  pen.drawImage(canvas, 0, 0);
  return paper;
}
