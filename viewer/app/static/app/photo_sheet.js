// The sheet of the house in a photograph: taking or choosing it, tapping corners, how well they agree, before and after.

import { button, make } from "trimwright/common/elements.js";
import { counted, say } from "trimwright/common/words.js";
import { lookOn, looksOf } from "trimwright/read/looks.js";
import { slideBetween } from "trimwright/customer/before_after.js";
import { address, asked, chooser, handed } from "trimwright-app/asking.js";
import { paintMask } from "trimwright-app/photo_mask.js";
import { tapCorners } from "trimwright-app/photo_taps.js";

const ENOUGH = 4; // taps, where the file says what lens it was

export function photoSheet(workspace) {
  const el = make("div", { class: "tw-photo-sheet" });
  return { title: say("The house in a photograph"), part: "sell", el, shown: () => fill(workspace, el) };
}

async function fill(workspace, el) {
  const found = await asked(workspace, "photo");
  const again = () => fill(workspace, el);
  const take = async (file) => (await handed(workspace, `photo?name=${encodeURIComponent(file.name)}`, file)) && again();
  const choose = (text) => chooser(text, "image/jpeg,image/png,image/webp", take);
  if (!found.corners) return el.replaceChildren(make("p", { class: "tw-problem", text: found.problem }));
  if (!found.file) return el.replaceChildren(
    make("p", { text: say("Take a photograph of the house, all of the roof in it, and tap corners of the roof. It stays on this computer; where it was taken is not kept.") }),
    make("div", { class: "tw-chips" }, choose(say("Take or choose a photograph"))));
  const tap = () =>
    tapCorners(workspace, found, async (points) => (await handed(workspace, "photo/points", JSON.stringify(points))) && again());
  const paint = () => paintMask(workspace, found, async (mask) => (await handed(workspace, "photo/front", mask)) && again());
  const count = found.points.length;
  const taps = button(count ? say("Tap corners anew") : say("Tap corners of the roof"), tap, { class: count ? "tw-plain" : "tw-main" });
  return el.replaceChildren(...[
    count >= ENOUGH ? agreement(found, tap)
      : make("p", { class: "tw-lead", text: counted("{count} corner is tapped.", "{count} corners are tapped.", { count }) }),
    found.solved ? slider(workspace) : picture(workspace),
    found.solved && sunBlock(workspace, found.sun, again),
    make("div", { class: "tw-pair" }, taps, choose(say("Another photograph"))),
    found.solved
      && button(found.front ? say("Paint on at what stands in front") : say("Paint what stands in front, such as a tree"), paint,
        { class: "tw-plain" }),
  ].filter(Boolean));
}

// Where the light of the photograph comes from, matched by hand.
function sunBlock(workspace, sun, again) {
  const [from, height] = [[345, sun?.[0] ?? 200], [85, sun?.[1] ?? 40]].map(([max, value], i) =>
    make("input", { type: "range", min: i ? 5 : 0, max, step: 5, value, onchange: send }));
  async function send() {
    if (await handed(workspace, `photo/sun?from=${from.value}&height=${height.value}`, "")) again();
  }
  const slide = (text, input) => make("label", { class: "tw-slide" }, make("span", { text }), input);
  return make("details", {}, make("summary", { text: say("Light on the new roof") }), slide(say("Round the house"), from),
    slide(say("Height"), height));
}

// How well the taps agree, and which of them does not.
function agreement({ solved, problem, points, corners }, tap) {
  if (!solved) return make("p", { class: "tw-flag", text: problem });
  const named = (point) => corners.find(({ corner }) => String(corner) === String(point.corner))?.says ?? point.corner.join(", ");
  const rows = points.map((point, i) =>
    make("li",
      { class: i === solved.wrong ? "tw-is-error" : null,
        text: say("{corner}: {miss} pixels off", { corner: named(point), miss: solved.misses[i] }) }));
  return make("div", {},
    make("p", { class: "tw-lead", text: solved.says }),
    solved.wrong !== null
      && make("p", { class: "tw-flag" }, make("span", { text: say("One tap looks wrong, and is left out.") }), " ",
        button(say("Tap it anew"), tap, { class: "tw-link" })),
    solved.cameras > 1
      && make("p",
        { class: "tw-quiet",
          text: say("{count} places fit where the camera may have stood; tap more corners, or choose under Sizes.",
            { count: solved.cameras }) }),
    make("details", {}, make("summary", { text: say("Every tap") }), make("ul", { class: "tw-misses" }, rows)));
}

const picture = (workspace) =>
  make("img", { class: "tw-photo", alt: say("The photograph"), src: `${address(workspace, "photo/picture")}?which=kept&at=${Date.now()}` });

function slider(workspace) {
  const { app } = workspace.roof, looks = looksOf(app), at = Date.now();
  const from = (which, look = 0) => `${address(workspace, "photo/picture")}?which=${which}&look=${look}&at=${at}`;
  const image = (src, alt, name) => make("img", { class: name, alt, src });
  const first = Math.max(lookOn(app), 0);
  const after = image(from("after", first), say("With the new roof"), "cu-after cu-on");
  const box = make("div", { class: "cu-slide" }, image(from("before"), say("The house as it is"), "cu-before"), after);
  slideBetween(box);
  const saved = make("a",
    { class: "tw-chip tw-as-button", href: after.src, download: `${workspace.state.name}-photo.jpg`, text: say("Save the picture") });
  const chips = looks.map(({ name }, i) => button(name, () => {
    saved.href = after.src = from("after", i);
    for (const [k, chip] of chips.entries()) chip.setAttribute("aria-pressed", String(k === i));
  }, { class: "tw-chip", "aria-pressed": String(i === first) }));
  return make("div", { class: "tw-photo-shown" }, box,
    chips.length > 1 && make("div", { class: "tw-chips", role: "group", "aria-label": say("Looks") }, chips),
    make("div", { class: "tw-chips" }, saved));
}
