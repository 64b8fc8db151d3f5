// A piece's mark, as the tag that hangs on it.

import { make } from "trimwright/common/elements.js";

export function tag(piece, big = false) {
  return make("span", { class: `tw-tag tw-tag-${piece.trim}${piece.short ? " tw-tag-short" : ""}${big ? " tw-tag-big" : ""}`, text: piece.mark });
}
