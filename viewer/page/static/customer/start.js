// The customer's page: the roof that can be turned, its looks by card, key and tap, and the slider over the photograph.

import { speak } from "trimwright/common/words.js";
import { slideBetween } from "trimwright/customer/before_after.js";
import { Stand } from "trimwright/customer/stand.js";

export async function start(data) {
  const main = document.getElementById("customer");
  speak(data.words);
  const slide = main.querySelector(".cu-slide");
  if (slide) slideBetween(slide);
  const stand = new Stand(main, data);
  main.classList.add("cu-live");
  stand.choose(0);
  await stand.open();
  main.stand = stand;
  document.body.dataset.ready = String(Math.round(performance.now()));
}
