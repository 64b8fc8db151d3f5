// The looks that a scene names: one after the other by key or tap, each by its letter; where a host keeps them, new ones
// by name. The roof's own finish is A.

import { button, make } from "trimwright/common/elements.js";
import { ICONS, icon, iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";

const LETTER_A = 65, LONGEST = 60;

export const looksOf = ({ data }) => [{ name: say("As planned"), finish: data.finish }, ...(data.looks ?? [])];

const sameFinish = (one, other) =>
  ["trim", "panels"].every((part) => one[part].color === other[part].color && one[part].bare === other[part].bare)
  && one.walls === other.walls;

const letter = (number) => String.fromCharCode(LETTER_A + number);

// The number of the look that is on the roof; -1 where somebody tries another finish.
export const lookOn = (app) => looksOf(app).findIndex(({ finish }) => sameFinish(finish, app.view.looks.look));

export function takeLook(app, number) {
  const looks = looksOf(app), at = ((number % looks.length) + looks.length) % looks.length;
  const { name, finish } = looks[at];
  app.view.setLook(finish);
  app.tell(say("Look {letter}: {name}", { letter: letter(at), name }));
  if (app.current?.name === "finish") app.open("finish");
  app.host.dispatchEvent(new Event("look"));
}

// Chips to choose by.
export function looksBlock(app) {
  const looks = looksOf(app), on = lookOn(app);
  if (looks.length < 2 && !app.keeping) return null;
  const chips = looks.map(({ name }, i) => {
    const chip = button(say("{letter}  {name}", { letter: letter(i), name }), () => takeLook(app, i),
      { class: "tw-chip", "aria-pressed": String(i === on) });
    if (!i || !app.keeping) return chip;
    const away = iconButton("close", say("Take look {name} away", { name }), () => app.keeping.remove(i - 1));
    return make("span", { class: "tw-look" }, chip, away);
  });
  return make("div", { class: "tw-block" }, make("h3", { text: say("Looks") }), make("div", { class: "tw-chips" }, chips));
}

// Ways to keep what is tried: as the roof's own finish, or as a look by name.
export function keepBlock(app) {
  const { view: { looks }, keeping } = app;
  if (!keeping || lookOn(app) === 0) return null;
  const name = make("input",
    { type: "text", class: "tw-input", maxlength: LONGEST, placeholder: say("such as Copper"), "aria-label": say("Name of the look") });
  const save = () => (name.value.trim() ? keeping.save(name.value, looks.look) : name.focus());
  name.addEventListener("keydown", (event) => event.key === "Enter" && save());
  const tried = lookOn(app) < 0;
  return make("div", { class: "tw-block tw-keep" },
    tried && make("p", { class: "tw-flag", text: say("This finish is only tried: the roof has another.") }),
    button(say("Use this finish"), () => keeping.use(looks.look), { class: "tw-main" }),
    tried && make("div", { class: "tw-save-as" }, name, button(say("Save as a look"), save, { class: "tw-chip" })));
}

// A bar over the full view: the look that is seen, and the ones before and after it.
export function lookBar(app) {
  const name = make("b", {});
  const step = (side, text, by) => {
    const one = button("", () => takeLook(app, lookOn(app) + by), { class: "tw-icon-button", "aria-label": text, title: text });
    one.append(icon(ICONS[side]));
    return one;
  };
  const bar = make("div", { class: "tw-look-bar", role: "group", "aria-label": say("Looks"), hidden: true },
    step("left", say("The look before"), -1), name, step("right", say("The next look"), 1));
  const write = () => {
    const on = lookOn(app), looks = looksOf(app);
    bar.hidden = looks.length < 2;
    name.textContent = on < 0 ? say("Tried") : say("{letter}  {name}", { letter: letter(on), name: looks[on].name });
  };
  app.host.addEventListener("look", write);
  return Object.assign(bar, { write });
}
