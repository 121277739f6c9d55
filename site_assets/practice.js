// The practice sheet is in the page: it can be worked while a slow start goes on, where no other numbers are wanted.
const NOW = "This is the practice sheet that everyone shares. What you type is checked later.";

// what is said where Python cannot start; reason: what the browser said; kept: the code of the sheet whose entries are kept
export function notDrawn(desk, reason, kept) {
  const here = !desk.code && !desk.holder.classList.contains("er-waiting");
  desk.trouble(
    `No numbers could be drawn here, and nothing can be checked yet. What you typed${kept ? ` for ${kept}` : ""} is kept. ` +
      `Try: look at the network; load the page again; use an up-to-date Firefox, Chrome, Edge or Safari. ` +
      (here ? "Meanwhile here is the practice sheet that everyone shares, its answers folded away below it. " : "") +
      `(The browser said: ${reason})`,
  );
}

export function offerPractice(desk) {
  if (desk.code || desk.wanted || desk.place !== desk.draft || Object.keys(desk.entries()).length) return;
  const button = Object.assign(document.createElement("button"), { type: "button", className: "er-practice" });
  button.textContent = "Practice sheet";
  button.onclick = () => {
    desk.extras = desk.extras.filter((e) => e !== button);
    desk.want(desk.practice);
    desk.appear();
    desk.waits(NOW, "");
  };
  desk.extras.push(button);
}
