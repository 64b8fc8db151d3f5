// Asking the server for what takes a while, and handing files to it.

import { make } from "trimwright/common/elements.js";
import { say } from "trimwright/common/words.js";

// Where the server answers for a workspace.
export const address = (workspace, rest) => `/workspace/${workspace.state.key}/${rest}`;

// What the server has to tell, or {problem}.
export async function asked(workspace, rest) {
  try {
    return await (await fetch(address(workspace, rest))).json();
  } catch {
    return { problem: say("The server does not answer.") };
  }
}

// Hands something over; says what is wrong with it. Returns whether it was taken.
export async function handed(workspace, rest, body) {
  const got = await fetch(address(workspace, rest), { method: "PUT", body }).catch(() => null);
  const { problem } = (await got?.json().catch(() => null)) ?? { problem: say("The server does not answer.") };
  workspace.notify(problem ?? "", problem ? "tw-is-error" : "");
  return !problem;
}

// A button that chooses a file from the device; label: what it is called where the text alone does not say it.
// take: (file) => …
export function chooser(text, accept, take, label = text) {
  const file = make("input",
    { type: "file", accept, class: "tw-upload-file", "aria-label": label, onchange: () => file.files[0] && take(file.files[0]) });
  return make("label", { class: "tw-chip tw-upload" }, make("span", { text }), file);
}

// A link to a file that takes some seconds to be made: says so while it is, saves it then, and tells what is wrong.
export function savedWhenMade(workspace, link) {
  link.addEventListener("click", async (event) => {
    event.preventDefault();
    if (link.getAttribute("aria-busy") === "true") return;
    link.setAttribute("aria-busy", "true");
    workspace.notify(say("It is being made; that takes some seconds."), "tw-is-making");
    const got = await fetch(link.href).catch(() => null);
    link.removeAttribute("aria-busy");
    if (!got?.ok) return workspace.notify((await got?.text()) || say("The server does not answer."), "tw-is-error");
    const file = URL.createObjectURL(await got.blob()),
      name = decodeURIComponent(/filename\*=UTF-8''(.*)$/.exec(got.headers.get("Content-Disposition"))?.[1] ?? "");
    make("a", { href: file, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(file), 60_000);
    workspace.notify(say("Saved: {name}", { name }));
  });
  return link;
}
