// Opens a page: unpacks the scripts and the data that lie in it, and hands the data to the script that begins. A browser
// that cannot do that shows what is written in the page.

(async () => {
  const { textContent, dataset } = document.getElementById("packed");
  const bytes = Uint8Array.from(atob(textContent), (letter) => letter.charCodeAt(0));
  const { scripts, data } = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).json();
  const imports = Object.entries(scripts).map(([name, text]) => [name, `data:text/javascript;charset=utf-8,${encodeURIComponent(text)}`]);
  const map = document.createElement("script");
  map.type = "importmap";
  map.textContent = JSON.stringify({ imports: Object.fromEntries(imports) });
  document.head.append(map);
  const { start } = await import(dataset.start);
  await start(data);
})().catch((error) => {
  document.documentElement.classList.add("plain");
  document.body.dataset.ready = "no";
  console.error(error);
});
