// Icons, and buttons that are nothing but one.

import { button, draw } from "trimwright/common/elements.js";

// An icon is one path in a box of 24; it says nothing to a screen reader, its button does.
export function icon(path) {
  return draw("svg", { viewBox: "0 0 24 24", class: "tw-icon", "aria-hidden": "true", focusable: "false" }, draw("path", { d: path }));
}

export const ICONS = {
  look: "M2 20h20M5 20V9.500l7-5.500 7 5.500V20M9.500 20v-6h5v6",
  pieces: "M3 7h14v4h-9v9M17 7l4 3-4 3",
  order: "M4 20h16M4 16h16M7 12h10M12 2v7m-3-3 3 3 3-3",
  findings: "M6 22V3m0 1h12l-3 4.500L18 13H6",
  finish: "M4 4h12v6H4zM16 7h4v6h-9v3m-1.500 0h3v6h-3z",
  tape: "M2 9h20v7H2zM6 9v3m4-3v4m4-4v3m4-3v4",
  cut: "M12 2v20M4 7h5v4H5v6h4M20 7h-5m5 4h-5m5 6h-5",
  whole: "M1 12 12 3l11 9M4 10v10h16V10M4 15h16",
  full: "M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5",
  picture: "M4 5h16v14H4zM4 16l5-5 4 4 3-3 4 4M15 8.500h.01",
  close: "M6 6l12 12M18 6 6 18",
  left: "M15 5l-7 7 7 7",
  right: "M9 5l7 7-7 7",
  caution: "M12 3 2 21h20zM12 10v5m0 3v.01",
};

export function iconButton(name, text, act, props = {}) {
  const one = button("", act, { class: "tw-icon-button", "aria-label": text, title: text, ...props });
  one.append(icon(ICONS[name]));
  return one;
}
