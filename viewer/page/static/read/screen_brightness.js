// How bright the screen is: as the device has it, for bright sun, or dark. Nothing is remembered after the page is shut.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const CHOICES = { auto: () => say("As the device has it"), sun: () => say("Bright sun"), dark: () => say("Dark") };
const dark = matchMedia("(prefers-color-scheme: dark)");

export function watchScreen(app) {
  dark.addEventListener("change", () => setScreen(app, app.screen));
  setScreen(app, "auto");
}

function setScreen(app, choice) {
  app.screen = choice;
  app.host.dataset.screen = choice === "auto" ? (dark.matches ? "dark" : "light") : choice;
}

export function screenBlock(app) {
  const choices = Object.entries(CHOICES).map(([name, text]) =>
    make("label", { class: "tw-choice" },
      make("input", { type: "radio", name: "tw-screen", checked: app.screen === name, onchange: () => setScreen(app, name) }),
      make("span", { text: text() })));
  return make("fieldset", { class: "tw-block tw-fieldset" }, make("legend", { text: say("Screen") }),
    make("div", { class: "tw-chips" }, choices));
}
