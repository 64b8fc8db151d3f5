// The tools over the roof: the whole of it again, measuring, cutting through, and saving a picture.

import { make } from "trimwright/common/elements.js";
import { iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";
import { cutTool } from "trimwright/tools/cut.js";
import { measureTool } from "trimwright/tools/measure.js";
import { savePicture } from "trimwright/tools/save_picture.js";

// Gives `app` use(tool), which takes a tool up, or lays it down when it is in use; null lays down whatever is.
export function toolbar(app) {
  const { view, stage } = app;
  const measure = measureTool(app), cut = cutTool(app);
  const toggles = new Map([
    [measure, iconButton("tape", say("Measure between two points"), () => app.use(measure))],
    [cut, iconButton("cut", say("Cut through: see the layers"), () => app.use(cut))],
  ]);
  let inUse = null;
  app.use = (tool) => {
    const again = inUse === tool;
    inUse?.stop();
    inUse = again ? null : tool;
    inUse?.start(() => app.use(tool));
    for (const [one, toggle] of toggles) toggle.setAttribute("aria-pressed", String(inUse === one));
  };
  const whole = () => {
    view.viewpoints.standAt(view.data.views[0].name);
    app.tell(say("The whole roof, from the street"));
  };
  const bar = make("div", { class: "tw-tools", role: "group", "aria-label": say("Tools") },
    iconButton("whole", say("Whole roof"), whole), ...toggles.values(), iconButton("picture", say("Save this picture"), () => savePicture(app)));
  view.addEventListener("tap", (event) => inUse && (event.preventDefault(), inUse.tap(event.detail)));
  view.addEventListener("resize", () => {
    const from = stage.getBoundingClientRect(), box = bar.getBoundingClientRect();
    view.overlay.keepOff = [[box.left - from.left, box.top - from.top, box.right - from.left, box.bottom - from.top]];
  });
  return Object.assign(bar, { layDown: () => inUse && (app.use(inUse), true) });
}
