// What tests ask of anything that is read: every word on it, and whether some of it is cut off.

window.readable = (() => {
  const HIDDEN = ".tw-language, .tw-said, .tw-skip, .tw-printed, [hidden], option, script, style, noscript";
  const SAID = ["aria-label", "title", "aria-valuetext", "placeholder", "alt"];
  const seen = (node) => node.getClientRects().length > 0 && !getComputedStyle(node).clipPath.includes("inset(50%)");
  const clips = (node) => ["hidden", "clip"].includes(getComputedStyle(node).overflowX);
  const scrolls = (node) => ["auto", "scroll"].includes(getComputedStyle(node).overflowX);
  const texts = () => {
    const walk = document.createTreeWalker(document.querySelector(".tw"), NodeFilter.SHOW_TEXT), found = [];
    while (walk.nextNode()) {
      const node = walk.currentNode, parent = node.parentElement;
      if (node.textContent.trim() && !parent.closest(HIDDEN) && seen(parent)) found.push(node);
    }
    return found;
  };
  const boxOf = (node) => {
    const range = document.createRange();
    range.selectNodeContents(node);
    return range.getBoundingClientRect();
  };
  // The box that a text must lie in from left to right: its button, its drawing, and all that clips it.
  const holds = (node) => {
    const found = [];
    for (let at = node.parentElement; at && at !== document.documentElement; at = at.parentElement) {
      if (at.matches("button, svg, select, .tw-slip-row") || clips(at)) found.push(at);
      if (scrolls(at) && !at.matches(".tw-sheet-body, .tw-card-body, .tw-end-read, .tw-aside")) break; // it can be slid
    }
    return found;
  };
  return {
    words() {
      const said = [...document.querySelectorAll(".tw, .tw :not(.tw-language)")].flatMap((node) => SAID.map((name) => node.getAttribute(name)).filter(Boolean));
      const options = [...document.querySelectorAll(".tw option")].map((one) => one.textContent);
      return [...texts().map((node) => node.textContent), ...said, ...options, document.querySelector(".tw-said").textContent].join("\n");
    },
    // What is cut off, each with what cuts it.
    cut() {
      const off = texts().flatMap((node) => {
        const box = boxOf(node);
        const by = holds(node).find((one) => {
          const { left, right } = one.getBoundingClientRect();
          const room = one.matches(".tw-dock button") ? 1 : -1; // neighbors must not touch
          return box.left < left + room || box.right > right - room;
        });
        return by ? [`${node.textContent.trim()} in ${by.className.baseVal ?? by.className} ${by.tagName}`] : [];
      });
      const short = [...document.querySelectorAll(".tw-title, .tw-dock button, .tw-tabs button, .tw-verb, .tw-chip, .tw-note:not(.tw-note-pin)")]
        .filter((one) => seen(one) && (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1))
        .map((one) => `${one.textContent.trim()} is larger than its box`);
      return [...new Set([...off, ...short])];
    },
  };
})();
