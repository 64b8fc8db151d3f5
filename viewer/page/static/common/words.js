// Words: puts English sentences into the language of the page. The English sentence is the key; `speak` takes the others.

let spoken = { sentences: {}, counted: {} };

// words: {code, sentences: {English: other}, counted: {English: {forms, which}}}: which of the forms holds for a count
// below 200 is the digit at its place; larger counts are as their last two digits and one hundred.
export function speak(words) {
  spoken = words;
  document.documentElement.lang = words.code;
}

// A whole sentence or label, with {name} for each value; what differs is a value, never a fragment.
export function say(sentence, values = {}) {
  return filled(spoken.sentences[sentence] ?? sentence, values);
}

// A sentence whose words depend on `values.count`: the first is for one, the other for any other count.
export function counted(one, other, values) {
  const { count } = values, found = spoken.counted[one];
  const place = count < 200 ? count : 100 + (count % 100);
  return filled(found ? found.forms[found.which[place]] : count === 1 ? one : other, values);
}

function filled(sentence, values) {
  return sentence.replace(/\{\{|\}\}|\{(\w+)\}/g, (place, name) => (name ? written(values[name], name, sentence) : place[0]));
}

function written(value, name, sentence) {
  if (value === undefined) throw new Error(`${sentence} has no value for ${name}`);
  return typeof value === "number" ? value.toLocaleString("en-US") : value;
}
