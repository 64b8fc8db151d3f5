// The tools over the roof: the whole of it again, measuring, cutting through, saving a picture, and the full view.

import { make } from "trimwright/common/elements.js";
import { iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";
import { cutTool } from "trimwright/tools/cut.js";
import { measureTool } from "trimwright/tools/measure.js";
import { pictureSheet } from "trimwright/tools/save_picture.js";

const OVER = ":scope > :is(.tw-tools, .tw-prompt, .tw-slip, .tw-notice)"; // what lies over the view

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
    app.host.classList.toggle("tw-in-hand", Boolean(inUse)); // pins stand in no tool's way
    for (const [one, toggle] of toggles) toggle.setAttribute("aria-pressed", String(inUse === one));
  };
  const full = iconButton("full", say("Full view"), () => setFull(!full.classList.contains("tw-on")));
  const setFull = (on) => {
    app.host.classList.toggle("tw-full", on);
    full.classList.toggle("tw-on", on);
    full.setAttribute("aria-pressed", String(on));
    return true;
  };
  const whole = () => {
    view.viewpoints.standAt(view.data.views[0].name);
    app.tell(say("The whole roof, from the street"));
  };
  const what = () => ({ view, title: app.data.title, caption: view.viewpoints.current?.title });
  const bar = make("div", { class: "tw-tools", role: "group", "aria-label": say("Tools") },
    iconButton("whole", say("Whole roof"), whole), ...toggles.values(),
      iconButton("picture", say("Save this picture"), () => app.put("picture", () => pictureSheet(what, app.tell), undefined, true)), full);
  view.addEventListener("tap", (event) => inUse && (event.preventDefault(), inUse.tap(event.detail)));
  view.overlay.keepOff = () => [...app.host.querySelectorAll(OVER)].map((one) => within(one, stage)).filter(Boolean);
  return Object.assign(bar, {
    layDown: () => inUse && (app.use(inUse), true),
    leaveFull: () => app.host.classList.contains("tw-full") && setFull(false),
  });
}

// Where an element lies on the stage: [left, top, right, bottom], pixels; null where it is not seen.
function within(one, stage) {
  if (!one.offsetParent) return null;
  const from = stage.getBoundingClientRect(), box = one.getBoundingClientRect();
  return [box.left - from.left, box.top - from.top, box.right - from.left, box.bottom - from.top];
}
