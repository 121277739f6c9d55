// How the form of a lab record goes along with what is typed in it. No physics here.

// What the page shows follows from two choices: the words of the position, and the cell of a 2l that is stated.
export function suit(desk) {
  const [position, rule, two_l] = ["position", "two_l_is", "two_l"].map((key) => desk.querySelector(`#rc-${key}`));
  desk.dataset.position = position.value;
  two_l.closest(".rc-cell").hidden = rule.value !== "stated" && !two_l.value;
}

// Enter goes on to the next field that can be seen: from the eighth reading to the next distance that is still to be
// typed, or to its first reading where d stands there already
export function nextOf(from, form) {
  const every = [...form.querySelectorAll("input, select")];
  const inputs = every.filter((i) => !i.closest("details:not([open]), [hidden]"));
  const at = inputs.indexOf(from) + 1;
  const planned = from.id.startsWith("rc-reading8-") && inputs[at]?.id.startsWith("rc-d-") && inputs[at].value;
  return inputs[planned ? at + 1 : at];
}
