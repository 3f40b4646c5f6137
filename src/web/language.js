// Fetches a language's file; an empty text is none.

export function load(file, then) {
  fetch(file)
    .then((answer) => (answer.ok ? answer.text() : ""))
    .catch(() => "")
    .then(then);
}
