// A picture to keep or to send.

import { make } from "trimwright/common/elements.js";

const INK = "#14212b", PAPER = "#ffffff";

// Returns the present view as a PNG, with its sky, over a strip with the title.
export async function pictureOf(view, title) {
  view.painter.drawNow();
  const { canvas } = view;
  const strip = Math.round(canvas.width * 0.028) + 22;
  const paper = make("canvas", { width: canvas.width, height: canvas.height + strip });
  const pen = paper.getContext("2d");
  const sky = pen.createLinearGradient(0, 0, 0, canvas.height);
  const style = getComputedStyle(view.host);
  ["--tw-sky-top", "--tw-sky-low"].forEach((name, stop) => sky.addColorStop(stop, style.getPropertyValue(name).trim() || PAPER));
  pen.fillStyle = sky;
  pen.fillRect(0, 0, paper.width, canvas.height);
  pen.drawImage(canvas, 0, 0);
  pen.fillStyle = PAPER;
  pen.fillRect(0, canvas.height, paper.width, strip);
  pen.fillStyle = INK;
  pen.font = `600 ${Math.round(strip * 0.42)}px system-ui, sans-serif`;
  pen.textBaseline = "middle";
  pen.fillText(title, strip * 0.4, canvas.height + strip / 2, paper.width - strip * 0.8);
  return new Promise((done) => paper.toBlob(done, "image/png"));
}
