// Files dropped on the class desk: each place takes its own, and a file dropped beside them does not replace the page.
export function takeDrops(desk, taken) {
  for (const place of desk.all("[data-drop]")) {
    const over = (event) => {
      if (!event.dataTransfer.types.includes("Files")) return;
      event.preventDefault();
      place.classList.toggle("cd-over", event.type === "dragover");
      if (event.type === "drop" && !place.closest(".cd-part").disabled) taken[place.dataset.drop](event.dataTransfer.files);
    };
    for (const name of ["dragover", "dragleave", "drop"]) place.addEventListener(name, over);
  }
  for (const name of ["dragover", "drop"]) {
    addEventListener(name, (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
  }
}
