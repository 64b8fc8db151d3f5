// The tool that measures: a tap on one point, a tap on another, and the distance between them as a tape reads it.

import { say } from "trimwright/common/words.js";
import { snapped } from "trimwright/seen/pick.js";

const INCHES = 1 / 0.0254;

export function measureTool(app) {
  const { view } = app;
  let points = [], done;
  const dot = (point) => view.overlay.add({ text: "", kind: "dot", points: [point], priority: 60, group: "measure" });
  return {
    start(end) {
      done = end;
      points = [];
      app.ask(say("Measure: tap two points"), done);
    },
    stop() {
      view.overlay.clear("measure");
      view.painter.draw();
      app.ask(null);
    },
    tap({ x, y, reach, hit }) {
      const found = hit();
      if (!found) return;
      if (points.length === 2) points = [];
      points.push(snapped(view, found, x, y, Math.max(reach, 8)));
      view.overlay.clear("measure");
      points.forEach(dot);
      if (points.length === 1) app.ask(say("Measure: tap the second point"), done);
      else read(app, points, done);
      view.painter.draw();
    },
  };
}

function read(app, [a, b], done) {
  const length = app.length(a.distanceTo(b) * INCHES);
  const level = app.length(Math.hypot(a.x - b.x, a.z - b.z) * INCHES), plumb = app.length(Math.abs(a.y - b.y) * INCHES);
  app.view.overlay.stroke({ points: [a.clone(), b.clone()], kind: "measure", text: length, group: "measure" });
  const words = say("{length} between the two points; level {level}, plumb {plumb}", { length, level, plumb });
  app.ask(words, done);
  app.tell(words);
}
