// What fields are written in: a line, a choice, a tick, a color. Each is {el, control, set}: `set` puts a value into it.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const PAUSE = 450; // milliseconds of stillness after which what is written so far is taken
const LONGEST = 2000; // characters

export function inputFor(one, props, form) {
  return (INPUTS[one.kind] ?? line)(one, props, form);
}

// A line to write in: taken when left, at Enter, and after a pause. While somebody writes on, answers to what was
// taken before don't overwrite it.
function line(one, props, form) {
  let timer, last = "", touch = "";
  const take = () => {
    clearTimeout(timer);
    if (el.value === last) return;
    last = el.value;
    form.send(one, el.value, touch);
  };
  const wait = () => {
    clearTimeout(timer);
    timer = setTimeout(take, PAUSE);
  };
  const el = make("input", {
    type: "text", class: "tw-input", maxlength: LONGEST, ...props,
    onfocus: () => (touch = `t${++form.touch}`), oninput: wait, onchange: take, onkeydown: (event) => event.key === "Enter" && take(),
  });
  return { el, control: el, set({ value, blank, fixed }) {
    if (el.placeholder !== blank) el.placeholder = blank;
    el.readOnly = Boolean(fixed);
    const writing = document.activeElement === el && (el.value !== last || el.value.trim() === value);
    if (writing) return;
    el.value = value;
    last = value;
  } };
}

function choice(one, props, form) {
  const el = make("select", { class: "tw-input", ...props, onchange: () => form.send(one, el.value) });
  let listed;
  return { el, control: el, set({ value, blank, must, choices }) {
    const usual = choices.find(([name]) => name === blank)?.[1] ?? blank;
    const known = choices.some(([name]) => name === value);
    const empty = () => (blank ? say("usual: {choice}", { choice: usual }) : say("usual"));
    const names = [...(must && known ? [] : [["", empty()]]), ...(value && !known ? [[value, value]] : []), ...choices];
    const list = JSON.stringify(names);
    // a list that is open stays so
    if (list !== listed) el.replaceChildren(...names.map(([name, text]) => make("option", { value: name, text })));
    listed = list;
    el.value = value;
  } };
}

function check(one, props, form) {
  const el = make("input", { type: "checkbox", ...props, onchange: () => form.send(one, el.checked ? "yes" : "no") });
  return { el, control: el, set: ({ value, blank }) => (el.checked = (value || blank) === "yes") };
}

function color(one, props, form) {
  const code = line(one,
    { ...props, id: `${props.id}-code`, "aria-label": say("{color}, as a code", { color: one.label }), "data-path": "" }, form);
  const el = make("input", { type: "color", ...props, onchange: () => form.send(one, el.value) });
  return { el: make("div", { class: "tw-color-row" }, el, code.el), control: el, set(now) {
    const shown = now.reading?.color ?? (now.value || now.blank);
    el.value = /^#[0-9a-f]{6}$/i.test(shown) ? shown.toLowerCase() : "#808080";
    code.set(now);
  } };
}

// One of a few, all of them in sight; the usual one is written as nothing.
function either(one, props, form) {
  const chips = one.choices.map(([name, text]) =>
    make("button",
      { type: "button", class: "tw-chip", "data-name": name, text, onclick: () => form.send(one, name === blankNow ? "" : name) }));
  const el = make("div", { ...props, class: "tw-either", role: "group", tabindex: "-1", "aria-label": one.label }, chips);
  let blankNow = "";
  return { el, control: el, set({ value, blank }) {
    blankNow = blank;
    for (const chip of chips) chip.setAttribute("aria-pressed", String(chip.dataset.name === (value || blank)));
  } };
}

const INPUTS = { either, choice, count: choice, check, here: check, color };
