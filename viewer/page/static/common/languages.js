// Languages: a page may be read in another than the one it was written in. What was chosen holds until the page is shut.

import { button } from "trimwright/common/elements.js";

const CHOSEN = "trimwright-language";

// Puts the chosen language into the data, whose `languages` are {code, name, words, places: [[path, value], ...]}: what
// stands otherwise at a path of keys. Gives all that there are, and the code of the one that is read.
export function readIn(data) {
  const own = { code: data.words.code, name: data.language };
  const other = data.languages.find(({ code }) => code === chosen());
  for (const [path, value] of other?.places ?? []) {
    const last = path.at(-1), holder = path.slice(0, -1).reduce((part, key) => part[key], data);
    holder[last] = value;
  }
  if (other) data.words = other.words;
  return { all: [own, ...data.languages], code: data.words.code };
}

// A button among the tools for the language that comes next, where there is more than one; it reads the page anew in it.
export function languageSwitch({ all, code }, tools) {
  if (all.length < 2) return;
  const next = all[(all.findIndex((one) => one.code === code) + 1) % all.length];
  const read = () => {
    sessionStorage.setItem(CHOSEN, next.code);
    location.reload();
  };
  tools.append(button(next.code.toUpperCase(), read, { class: "tw-language", lang: next.code, "aria-label": next.name, title: next.name }));
}

function chosen() {
  try {
    return sessionStorage.getItem(CHOSEN);
  } catch {
    return null; // a browser that keeps nothing
  }
}
