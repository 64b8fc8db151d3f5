// The tool that saves a picture to keep or to send: the present view, over a strip with what it is called.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

const INK = "#14212b", PAPER = "#ffffff";

export async function savePicture({ view, data, tell }) {
  const where = view.viewpoints.current?.title;
  const blob = await pictureOf(view, where ? say("{title} · {view}", { title: data.title, view: where }) : data.title);
  const link = make("a", { href: URL.createObjectURL(blob), download: `${data.title.replace(/[^\p{L}\p{N}]+/gu, "-")}.png` });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  tell(say("Picture saved"));
}

// Returns the present view as a PNG, with its sky, over a strip with the title.
async function pictureOf(view, title) {
  view.painter.drawNow();
  const { canvas } = view;
  const strip = Math.round(canvas.width * 0.028) + 22;
  const paper = make("canvas", { width: canvas.width, height: canvas.height + strip });
  const pen = paper.getContext("2d");
  pen.fillStyle = skyOf(view, pen);
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

function skyOf({ host, canvas }, pen) {
  const sky = pen.createLinearGradient(0, 0, 0, canvas.height), style = getComputedStyle(host);
  ["--tw-sky-top", "--tw-sky-low"].forEach((name, stop) => sky.addColorStop(stop, style.getPropertyValue(name).trim() || PAPER));
  return sky;
}
