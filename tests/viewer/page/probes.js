// What tests ask a page that is open.

window.probe = (() => {
  const roof = () => document.getElementById("roof").roof;
  const view = () => roof().view;
  const onScreen = (point) => {
    const box = view().canvas.getBoundingClientRect(), at = point.clone().project(view().camera);
    return [box.left + ((at.x + 1) / 2) * box.width, box.top + ((1 - at.y) / 2) * box.height];
  };
  // Resolves when something holds; the page's policy keeps Playwright from asking for it itself.
  const until = (holds) => new Promise((done) => {
    const look = () => (holds() ? done() : setTimeout(look, 10));
    look();
  });
  const probe = {
    taps: 0, // fingers or mouse buttons that were lifted
    lifted: (before) => until(() => probe.taps > before),
    settled: () => until(() => view().painter.pending === undefined),
    // Where a piece's middle is on the screen, or a share of its length off it.
    place(mark, share) {
      const piece = view().pieces.get(mark);
      const at = piece.body.geometry.boundingSphere.center.clone().fromArray(piece.middle);
      piece.along.forEach((part, i) => at.setComponent(i, at.getComponent(i) + part * piece.size * share));
      return onScreen(at);
    },
    // Puts an open page back to how it opened, in less time than opening it again.
    async afresh() {
      const { app } = roof();
      view().painter.compareWith(null);
      view().setLook(view().data.finish);
      view().arrangement.tellApart(false);
      Object.assign(view().arrangement, { lift: 0, shown: { panels: true, marks: false, screws: true, pins: true } });
      app.use(null);
      app.close();
      await roof().load(view().data);
      view().viewpoints.standAt(view().data.views[0].name, 0);
      app.open("roof");
    },
    // The color of the picture at a share of its width and height.
    pixel(across, down) {
      view().painter.drawNow();
      const { canvas } = view(), gl = view().painter.renderer.getContext(), color = new Uint8Array(4);
      gl.readPixels(canvas.width * across, canvas.height * (1 - down), 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, color);
      return [...color];
    },
    set: () => view().world.bodies.filter((body) => body.visible && body.userData.step > 0).map((body) => body.userData.name).sort(),
    panels: () => view().world.bodies.filter((body) => body.visible && body.userData.kind === "pan").length,
    screws() {
      const { screws } = view().world, matrix = screws.matrixWorld.clone();
      let count = 0;
      for (let i = 0; i < screws.count; i++) {
        screws.getMatrixAt(i, matrix);
        count += matrix.elements[13] > -1000;
      }
      return count;
    },
    measured() {
      const [a, b] = view().overlay.notes.filter((note) => note.kind === "dot").map((note) => note.points[0]);
      return a.distanceTo(b) / 0.0254;
    },
    // How far each point of a line that is drawn on a piece lies off its box, inches.
    offMetal(mark) {
      const { geometry } = view().pieces.get(mark).body;
      geometry.computeBoundingBox();
      return view().overlay.strokes.filter((one) => one.group === "work").flatMap((one) => one.points.map((point) => geometry.boundingBox.distanceToPoint(point) / 0.0254));
    },
    // How far each note that is seen is off its point, and how long the line between them is, pixels.
    leaders: () => view().overlay.notes.filter(({ el, kind }) => !el.hidden && kind !== "pin").map((note) => {
      const [x, y] = note.el.style.transform.match(/-?[\d.]+/g).map(Number), [w, h] = note.size;
      const apart = Math.hypot(Math.max(x - note.x, 0, note.x - x - w), Math.max(y - note.y, 0, note.y - y - h));
      return [apart, note.leader.getAttribute("d") ? note.leader.getTotalLength() : 0];
    }),
    // The corners of the roof's box on the screen, as shares of the picture, -1 to 1.
    corners() {
      const { min, max } = view().box, found = [];
      for (const x of [min.x, max.x]) for (const y of [min.y, max.y]) for (const z of [min.z, max.z]) found.push(min.clone().set(x, y, z).project(view().camera));
      return found;
    },
    seesAll: () => probe.corners().every(({ x, y }) => Math.abs(x) <= 1.001 && Math.abs(y) <= 1.001),
    // How much of the picture's width and height the roof takes.
    extent() {
      const all = probe.corners(), span = (name) => Math.max(...all.map((one) => one[name])) - Math.min(...all.map((one) => one[name]));
      return [span("x") / 2, span("y") / 2];
    },
    notes: () => [...document.querySelectorAll(".tw-note:not([hidden])")].map((note) => note.getBoundingClientRect().toJSON()),
    // Buttons that are too small for a thumb.
    small() {
      const seen = [...document.querySelectorAll(".tw button, .tw summary")].filter((one) => one.offsetParent && !one.closest(".tw-note"));
      const open = seen.filter((one) => one.matches("summary") || !one.closest("details:not([open])"));
      return open.filter((one) => Math.min(one.offsetHeight, one.offsetWidth) < 40).map((one) => one.textContent || one.ariaLabel);
    },
    fits() {
      const sheet = document.querySelector(".tw-sheet-body");
      return document.scrollingElement.scrollWidth <= innerWidth && sheet.scrollWidth <= sheet.clientWidth;
    },
    // Clicks a place of the canvas with the mouse.
    tapped(x, y) {
      const there = { pointerId: 1, pointerType: "mouse", clientX: x, clientY: y, bubbles: true };
      for (const name of ["pointerdown", "pointerup"]) view().host.dispatchEvent(new PointerEvent(name, there));
    },
    // Milliseconds that the page's script takes for something.
    takes(words) {
      const act = new Function("roof", "view", words);
      const start = performance.now();
      act(roof(), view());
      return performance.now() - start;
    },
  };
  addEventListener("pointerup", () => probe.taps++, { capture: true });
  return probe;
})();
