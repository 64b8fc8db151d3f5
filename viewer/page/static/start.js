// A page that stands alone: its data lies in it, and it asks for nothing.

import { languageSwitch, readIn } from "trimwright/common/languages.js";
import { say, speak } from "trimwright/common/words.js";

export async function start(data) {
  const host = document.getElementById("roof");
  const tongues = readIn(data);
  speak(data.words);
  try {
    const { mountRoof } = await import("trimwright/frame.js");
    const roof = mountRoof(host);
    languageSwitch(tongues, host.querySelector(".tw-tools"));
    await roof.load(data);
    openNamed(roof);
    addEventListener("hashchange", () => openNamed(roof));
    addEventListener("beforeprint", () => {
      roof.view.painter.drawNow();
      document.getElementById("print-view").src = roof.view.canvas.toDataURL("image/png");
    });
    document.body.dataset.ready = String(Math.round(performance.now()));
    host.roof = roof;
  } catch (error) {
    host.remove();
    document.body.dataset.ready = "no";
    document.getElementById("plain-reason").textContent = /webgl/i.test(String(error))
      ? say("This browser cannot draw in three dimensions (WebGL is missing or switched off). Here are the pictures and lists.")
      : say("The three-dimensional view could not start ({error}). Here are the pictures and lists.", { error: String(error) });
    document.documentElement.classList.add("plain");
    console.error(error);
  }
}

// Opens the piece whose mark stands behind the # of the address, as on the label of a piece.
function openNamed(roof) {
  const mark = decodeURIComponent(location.hash.slice(1));
  if (roof.view.pieces.has(mark)) roof.select(mark);
}
