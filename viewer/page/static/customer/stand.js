// Where the roof is presented: its view, or pictures where nothing can be drawn; the next look by a tap or a key.

import { button, make } from "trimwright/common/elements.js";
import { iconButton } from "trimwright/common/icons.js";
import { say } from "trimwright/common/words.js";
import { shapeChips } from "trimwright/tools/save_picture.js";

const PLACES = { street: () => say("Street"), finish: () => say("Above"), back: () => say("Behind") };
const NEXT = new Set(["ArrowRight", "PageDown", " "]), BEFORE = new Set(["ArrowLeft", "PageUp"]);
const OWN_KEYS = "input, button, a, [role=application]"; // what has a use of its own for such keys

export class Stand {
  constructor(main, data) {
    Object.assign(this, { main, data, number: 0, roof: null, view: null });
    this.el = main.querySelector(".cu-view");
    this.said = make("p", { class: "tw-said", role: "status", "aria-live": "polite" });
    this.name = make("p", { class: "cu-now" });
    this.stage = make("div",
      { class: "cu-stage", tabindex: "0", role: "application",
        "aria-label": say("The roof. Arrow keys turn it, plus and minus come nearer or go back.") });
    this.still = make("img", { class: "cu-still", alt: "" });
    this.fullButton = iconButton("full", say("Full screen"), () => this.fill(!this.full));
    this.places = make("div", { class: "cu-places", role: "group", "aria-label": say("Look from") });
    this.tools = make("div", { class: "cu-tools" },
      iconButton("picture", say("Save this picture"), () => (this.shapes.hidden = !this.shapes.hidden)), this.fullButton);
    this.shapes = make("div", { class: "cu-shapes", hidden: true },
      shapeChips(() => this.picture(), (text) => ((this.shapes.hidden = true), (this.said.textContent = text))));
    this.el.append(this.still, this.stage, this.name, this.tools, this.shapes, this.places, this.said);
    if (data.looks.length > 1) this.el.append(this.stepper("left", say("The look before"), -1),
      this.stepper("right", say("The next look"), 1));
    for (const card of main.querySelectorAll(".cu-card")) card.addEventListener("click", () => this.choose(Number(card.dataset.look)));
    addEventListener("keydown", (event) => this.key(event));
    document.addEventListener("fullscreenchange", () => !document.fullscreenElement && this.fill(false));
    addEventListener("beforeprint", () => this.view?.painter.drawNow());
  }

  stepper(side, text, by) {
    return iconButton(side, text, () => this.choose(this.number + by), { class: `tw-icon-button cu-step cu-step-${side}` });
  }

  // Puts the roof on the stage; where it cannot be drawn, the pictures stay.
  async open() {
    try {
      const { RoofView } = await import("trimwright/seen/roof_view.js");
      this.view = new RoofView(this.stage);
      this.view.addEventListener("tap", (event) => event.preventDefault()); // nothing is chosen here but looks
      this.put();
      this.places.replaceChildren(...this.view.data.views.map((one) =>
        button(PLACES[one.name](), () => this.view.viewpoints.standAt(one.name), { class: "tw-chip" })));
      this.still.hidden = true;
    } catch (error) {
      console.warn(error);
      this.view = null;
      this.stage.remove();
      this.places.remove();
      this.tools.firstChild.remove();
      this.main.classList.add("cu-flat");
      this.data.looks = this.data.looks.filter((one) => one.letter); // the others have no picture to show
      if (this.data.looks.length === 1) for (const one of this.el.querySelectorAll(".cu-step")) one.remove();
    }
  }

  // Shows a look by its number; past the last one comes the first.
  choose(number) {
    const { looks } = this.data, count = looks.length;
    this.number = ((number % count) + count) % count;
    const { letter, name } = looks[this.number];
    const pictured = letter ? this.number : 0; // a color to try has no pictures of its own
    for (const one of this.main.querySelectorAll("[data-look]")) {
      one.classList.toggle("cu-on", Number(one.dataset.look) === (one.matches(".cu-after") ? pictured : this.number));
    }
    const cards = [...this.main.querySelectorAll(".cu-card")];
    for (const card of cards) card.setAttribute("aria-pressed", String(Number(card.dataset.look) === this.number));
    this.still.src = cards[pictured].querySelector("img").src;
    this.still.alt = looks[pictured].name;
    this.name.replaceChildren(...[letter && make("span", { class: "cu-letter", text: letter }),
      make("span", { text: name })].filter(Boolean));
    this.said.textContent = letter ? say("Look {letter}: {name}", { letter, name }) : name;
    this.put();
  }

  // Puts the chosen look on the roof that is drawn.
  put() {
    if (!this.view) return;
    const { looks, roofs, outdoors } = this.data, look = looks[this.number];
    this.view.load({ ...roofs[look.roof], title: this.data.title, finish: look.finish, outdoors });
    this.view.setLook(look.finish);
  }

  picture() {
    return { view: this.view, title: this.data.title, caption: this.data.looks[this.number].name };
  }

  get full() {
    return this.el.classList.contains("cu-full");
  }

  // Fills the screen; where the browser does not allow that, the page.
  fill(on) {
    this.el.classList.toggle("cu-full", on);
    this.fullButton.setAttribute("aria-pressed", String(on));
    document.documentElement.classList.toggle("cu-still-page", on);
    if (on) this.el.requestFullscreen?.().catch(() => {});
    else if (document.fullscreenElement) document.exitFullscreen();
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Escape" && this.full) return this.fill(false);
    const letter = this.data.looks.findIndex((one) => one.letter.toLowerCase() === event.key.toLowerCase());
    if (letter >= 0) return this.choose(letter);
    if (event.key.startsWith("Page") ? !this.full : event.target.closest?.(OWN_KEYS)) return;
    if (event.key === " " && !this.full) return; // it scrolls the page
    if (!NEXT.has(event.key) && !BEFORE.has(event.key)) return;
    event.preventDefault();
    this.choose(this.number + (NEXT.has(event.key) ? 1 : -1));
  }
}
