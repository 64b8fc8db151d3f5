// Small helpers that every part of the page builds its elements with. Text is always set as text, never as markup.

const CONTROLS = "button, input, select, summary, a";
const SVG = "http://www.w3.org/2000/svg";

function filled(node, props, kids) {
  for (const [key, value] of Object.entries(props)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) node.addEventListener(key.slice(2), value);
    else if (key === "text") node.textContent = value;
    else node.setAttribute(key, value === true ? "" : value);
  }
  node.append(...kids.flat().filter((kid) => kid !== null && kid !== undefined && kid !== false));
  return node;
}

export const make = (name, props = {}, ...kids) => filled(document.createElement(name), props, kids);
export const draw = (name, props = {}, ...kids) => filled(document.createElementNS(SVG, name), props, kids);

// Makes anew what stands in `place`, with `change`: the keyboard stays at what has the same name there, and a line that
// somebody is writing keeps its text.
export function keepingPlace(place, change) {
  const active = document.activeElement;
  const alike = () => [...place.querySelectorAll(CONTROLS)].filter((one) => nameOf(one) === nameOf(active));
  const at = place.contains(active) ? alike().indexOf(active) : -1;
  change();
  const again = at < 0 || active.isConnected ? null : alike()[at];
  if (!again) return;
  again.focus({ preventScroll: true });
  if (!active.matches("[type=text]") || active.value === active.defaultValue) return;
  again.value = active.value;
  again.setSelectionRange(active.selectionStart, active.selectionEnd);
}

const nameOf = (one) => one.ariaLabel || one.id || one.textContent;

export function button(text, act, props = {}) {
  return make("button", { type: "button", text, onclick: act, ...props });
}
