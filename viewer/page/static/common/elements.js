// Small helpers that every part of the page builds its elements with. Text is always set as text, never as markup.

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

export function button(text, act, props = {}) {
  return make("button", { type: "button", text, onclick: act, ...props });
}
