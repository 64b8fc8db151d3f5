// The sheet of the offer: who offers, the price list, what each look comes to, and the pages to sign.

import { button, make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";
import { address, asked, chooser, handed, savedWhenMade } from "trimwright-app/asking.js";
import { block, table } from "trimwright-app/blocks.js";
import { fieldOf, valueOf } from "trimwright-app/told_fields.js";

const SHOWN = ["name", "currency"]; // fields of the shop that are written here

export function offerSheet(workspace) {
  const sums = make("div", { class: "tw-sums", "aria-live": "polite" });
  const el = make("div", {}, shopBlock(workspace), sums);
  return { title: say("Offer"), part: "sell", el, shown: () => fill(workspace, sums) };
}

function shopBlock(workspace) {
  const { state } = workspace;
  const rows = SHOWN.map((name) => {
    const field = fieldOf(state, "shop", name);
    const input = make("input",
      { type: "text", class: "tw-input", value: field.value, maxlength: 200, "data-shop": name, onchange: () =>
        workspace.act({ do: "change", path: field.path, value: input.value }) });
    return make("label", { class: "tw-field" }, make("span", { text: field.label }), input);
  });
  const take = (what) => async (file) => (await handed(workspace, `shop?what=${what}&name=${encodeURIComponent(file.name)}`, file))
    && workspace.open("offer");
  return block(say("Who offers it"), make("div", { class: "tw-fields" }, rows),
    make("div", { class: "tw-chips" },
      !valueOf(state, "shop", "prices")
        && make("a",
          { class: "tw-chip tw-as-button", href: address(workspace, "price-list.csv"), download: "",
            text: say("A price list to fill in") }),
      chooser(say("Price list, CSV or XLSX"), ".csv,.xlsx", take("prices")), chooser(say("Logo"), "image/png,image/jpeg", take("logo"))));
}

async function fill(workspace, sums) {
  sums.replaceChildren(make("p", { class: "tw-quiet", text: say("Working out what it comes to…") }));
  const found = await asked(workspace, "offer");
  sums.replaceChildren(...(found.problem ? [make("p", { class: "tw-problem", text: found.problem })] : contents(workspace, found)));
}

function contents(workspace, { choices, currency, listed }) {
  const money = (amount) => `${currency}${Number(amount).toLocaleString("en-US", { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`;
  const priced = choices.some(({ lines }) => lines.length);
  const rows = choices.map(({ name, total, lines }) => [name || say("As planned"), lines.length ? money(total) : say("no price")]);
  const missing = [...new Set(choices.flatMap(({ unpriced }) => unpriced.map(({ words }) => words)))];
  const from = listed ? say("From {file}, tax and all.", { file: listed })
    : say("There is no price list yet: the offer says so, and has no sums.");
  return [
    block(say("What it comes to"), make("p", { class: "tw-quiet", text: from }), priced
      && table({ fields: [say("Look"), say("Total")], rows, right: [false, true] })),
    priced && missing.length > 0
      && make("p", { class: "tw-flag", text: say("Without a price, and in no sum: {items}.", { items: missing.join("; ") }) }),
    make("div", { class: "tw-pair" }, button(say("Looks"), () => workspace.roof.open("finish"), { class: "tw-plain" }),
      save(workspace, "offer.pdf", say("Offer as PDF"))),
  ].filter(Boolean);
}

function save(workspace, file, text) {
  return savedWhenMade(workspace, make("a", { class: "tw-main tw-as-button", href: address(workspace, file), download: "", text }));
}
