// The tape: a tap on one point, a tap on another, and the distance between them as a tape reads it.

import { snapped } from "trimwright/seen/pick.js";

const INCHES = 1 / 0.0254;

export function tapeTool(app) {
  let points = [], done;
  const { view } = app;
  return {
    start(end) {
      done = end;
      points = [];
      app.ask("Tape: tap two points", done);
    },
    stop() {
      view.overlay.clear("tape");
      view.painter.draw();
      app.ask(null);
    },
    tap({ x, y, reach, hit }) {
      const found = hit();
      if (!found) return;
      if (points.length === 2) points = [];
      points.push(snapped(view, found, x, y, Math.max(reach, 8)));
      view.overlay.clear("tape");
      for (const point of points) view.overlay.add({ text: "", kind: "dot", points: [point], priority: 60, group: "tape" });
      if (points.length === 1) {
        app.ask("Tape: tap the second point", done);
        view.painter.draw();
        return;
      }
      const [a, b] = points;
      const text = app.length(a.distanceTo(b) * INCHES);
      const level = app.length(Math.hypot(a.x - b.x, a.z - b.z) * INCHES), plumb = app.length(Math.abs(a.y - b.y) * INCHES);
      view.overlay.stroke({ points: [a.clone(), b.clone()], kind: "measure", text, group: "tape" });
      app.ask(`${text} (level ${level}, plumb ${plumb})`, done);
      app.say(`${text} between the two points; level ${level}, plumb ${plumb}`);
      view.painter.draw();
    },
  };
}
