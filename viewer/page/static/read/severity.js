// Findings by severity: the sign, the word and the heading of each, so that they are told apart at a glance.

import { make } from "trimwright/common/elements.js";
import { counted, say } from "trimwright/common/words.js";

export const SEVERITIES = ["error", "warning", "note"]; // the worst first

export const SIGNS = { error: "✕", warning: "!", note: "i" };

const WORDS = {
  error: () => say("error"),
  warning: () => say("warning"),
  note: () => say("note"),
};

const HEADINGS = {
  error: (count) => counted("{count} error", "{count} errors", { count }),
  warning: (count) => counted("{count} warning", "{count} warnings", { count }),
  note: (count) => counted("{count} note", "{count} notes", { count }),
};

export const severityWord = (severity) => WORDS[severity]();

export const severityHeading = (severity, count) => HEADINGS[severity](count);

export const plainName = (rule) => rule.replaceAll("-", " ");

export function severitySign({ severity }) {
  return make("span", { class: `tw-sign tw-is-${severity}`, role: "img", "aria-label": severityWord(severity), text: SIGNS[severity] });
}
