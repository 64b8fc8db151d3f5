// The sheet with the scene's text, and handing a text to the server.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { address, handed } from "trimwright-app/asking.js";

export function textSheet(workspace) {
  const area = make("textarea",
    { class: "tw-text", readonly: true, spellcheck: "false", autocomplete: "off", "aria-label": say("The scene's text, TOML"),
      maxlength: 1_000_000 });
  // disabled until there is a text
  const take = button(say("Take this text"), () => putText(workspace, area.value), { class: "tw-main", disabled: true });
  fetch(address(workspace, "text")).then((got) => got.text()).then((text) => {
    area.value = text;
    area.readOnly = take.disabled = false;
  }).catch(() => workspace.notify(say("The server does not answer."), "tw-is-error"));
  return { title: say("As text"), el: make("div", { class: "tw-as-text" },
    make("p", { class: "tw-quiet",
      text: say("All that a scene can say, profiles of its own, single screws and accepted findings too. It is TOML.") }), area,
    make("div", { class: "tw-pair" },
      button(say("Back"), () => workspace.open("file"), { class: "tw-plain" }), take)) };
}

// Puts a text in the place of the present one; with a name, as another scene.
export function putText(workspace, text, name) {
  const query = name === undefined ? "" : `?name=${encodeURIComponent(name)}`;
  return handed(workspace, `text${query}`, text);
}
