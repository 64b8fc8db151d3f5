// A piece's mark, as the tag that hangs on it.

import { make } from "trimwright/common/elements.js";

export function tag(piece, big = false) {
  return make("span", { class: `tw-tag${big ? " tw-tag-big" : ""}`, style: `--kind:${piece.tag}`, text: piece.mark });
}
