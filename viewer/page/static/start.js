// A page that stands alone: its data lies in it, and it asks for nothing.

async function start() {
  const place = document.getElementById("roof");
  try {
    const { mountRoof } = await import("trimwright/frame.js");
    const data = JSON.parse(document.getElementById("data").textContent);
    const roof = mountRoof(place);
    await roof.load(data);
    addEventListener("beforeprint", () => {
      roof.view.painter.drawNow();
      document.getElementById("print-view").src = roof.view.canvas.toDataURL("image/png");
    });
    document.body.dataset.ready = String(Math.round(performance.now()));
    place.roof = roof;
  } catch (error) {
    place.remove();
    document.body.dataset.ready = "no";
    document.getElementById("plain-reason").textContent = /webgl/i.test(String(error))
      ? "This browser cannot draw in three dimensions (WebGL is missing or switched off). Here are the pictures and lists."
      : `The three-dimensional view could not start (${error}). Here are the pictures and lists.`;
    document.documentElement.classList.add("plain");
    console.error(error);
  }
}

start();
