// How findings of each severity are told apart at a glance, and the plain name of a rule.

export const SIGNS = { error: "✕", warning: "!", note: "i" };

export const plainName = (rule) => rule.replaceAll("-", " ");
