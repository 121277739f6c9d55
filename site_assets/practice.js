// The practice sheet is in the page: it can be worked while a slow start goes on, where no other numbers are wanted.
const NOW = "This is the practice sheet that everyone shares. What you type is checked later.";

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
