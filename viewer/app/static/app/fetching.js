// Fetching the view: what is seen first, then the rest. While one is under way, the next waits, and only the latest is
// fetched, and of it only the parts that changed.

import { say } from "trimwright/common/words.js";
import { address } from "trimwright-app/asking.js";

export class ViewFetcher {
  constructor(workspace) {
    this.workspace = workspace;
    this.seen = 0; // number of the roof that is seen
    this.shown = 0; // number of the roof of which all is shown
    this.parts = {};
  }

  // Whether the server has more of the roof than what is here: another one, or the rest of this.
  get owed() {
    const { number, whole } = this.workspace.state;
    return number > this.seen || (whole && number === this.seen && number > this.shown);
  }

  async show() {
    if (this.busy) return;
    this.busy = true;
    try {
      while (this.owed) if (!(await this.fetch())) return;
    } catch (error) {
      console.error(error);
      this.workspace.notify(say("The view could not be fetched; it comes again with the next change."), "tw-is-error");
    } finally {
      this.busy = false;
    }
  }

  async fetch() {
    const { host, act } = this.workspace;
    const got = await fetch(address(this.workspace, `view${this.seen ? "" : "?all=true"}`));
    if (!got.ok) return false;
    const { number, whole, parts } = await got.json();
    Object.assign(this.parts, parts);
    await this.lay(whole);
    this.seen = host.dataset.seen = number;
    if (whole) this.shown = host.dataset.shown = number;
    else requestAnimationFrame(() => requestAnimationFrame(() => act({ do: "drawn" })));
    return true;
  }

  // Loads the view, and with the whole answer the sheets; keeps the step, the chosen piece and the place on the sheet.
  async lay(whole) {
    const { roof, arrange } = this.workspace;
    const { view, app } = roof, { arrangement } = view;
    const { step, steps, selected } = arrangement, sheet = app.current?.name, top = app.sheet.scrollTop;
    await (whole ? roof.load(this.data) : view.load(this.data));
    if (steps !== undefined && step < steps) arrangement.setStep(Math.min(step, arrangement.steps));
    else if (selected && view.pieces.has(selected)) arrangement.select(selected);
    if (app.current?.name === sheet) app.sheet.scrollTop = top;
    arrange();
  }

  // All parts as the view takes them.
  get data() {
    const { cards = [], close = [], pieces, views } = this.parts;
    const cardOf = new Map(cards.map((card) => [card.mark, card]));
    return { findings: [], terms: [], ...this.parts, pieces: pieces.map((piece) => ({ ...piece, ...cardOf.get(piece.mark) })),
      views: [...views, ...close] };
  }
}
