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
  const file = make("input", { type: "file", accept, class: "tw-upload-file", "aria-label": label, onchange: () => file.files[0] && take(file.files[0]) });
  return make("label", { class: "tw-chip tw-upload" }, make("span", { text }), file);
}
