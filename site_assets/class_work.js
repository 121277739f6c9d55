// Long work in slices, with a bar and a way to stop; and files saved or printed from what Python made.
import { download } from "./page.js";
import { short } from "./python.js";

const AIM = 200; // ms for a slice
const MOST = 2000; // things in a slice
const KEPT = 60e6; // bytes of a file that is kept, so that it is not made twice

export const make = (tag, text = "", also = {}) => Object.assign(document.createElement(tag), { textContent: text }, also);

const TYPES = {
  html: "text/html",
  csv: "text/csv",
  json: "application/json",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};
const bytes = (text = "") => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

// a file of what Python made; front and back: what stands around a workbook's sheet, in base 64
export const fileOf = (name, parts, { front, back } = {}) =>
  new Blob([bytes(front), ...parts, bytes(back)], { type: TYPES[name.split(".").pop()] });

// the {bytes} of a file, or a {text} that says of it why there are none
export async function bytesOf(file, largest) {
  if (file.size > largest) {
    const [many, most] = [file.size, Number(largest)].map((n) => n.toLocaleString("en"));
    return { text: `It has ${many} bytes; at most ${most} are read.` };
  }
  try {
    return { bytes: new Uint8Array(await file.arrayBuffer()) };
  } catch (error) {
    return { text: `It could not be read: ${short(error.message)}. Choose it again.` };
  }
}

export class Work {
  // desk: status(text, state); element: the page's desk
  constructor(desk, element) {
    this.desk = desk;
    this.bar = element.querySelector(".cd-progress");
    this.progress = element.querySelector("progress");
    this.soFar = element.querySelector(".cd-so-far");
    this.label = element.querySelector(".cd-progress label");
    this.files = new Map(); // name -> how it is made: an async function to a Blob, or null
    this.made = new Map(); // name -> Blob
    this.busy = false;
    element.querySelector("#cd-stop").addEventListener("click", () => (this.stopped = true));
  }

  // Calls slice(from, to) until all of total is done. A slice that answers null ends the work.
  // Returns the answers; null if the work was stopped or ended.
  async run(what, total, slice, first = 4) {
    if (this.busy) {
      this.desk.status("One thing is being made already. Wait for it, or press Stop.", "ready");
      return null;
    }
    this.busy = true;
    this.stopped = false;
    this.label.textContent = what;
    this.progress.max = Math.max(total, 1);
    let said = "";
    const shown = setTimeout(() => {
      this.bar.hidden = false; // short work shows no bar
      this.desk.status((said = `${what} …`), "ready");
    }, 300);
    const found = [];
    try {
      let many = first;
      for (let at = 0; at < Math.max(total, 1); ) {
        if (this.stopped) {
          this.desk.status(`${what}: stopped after ${at} of ${total}. Nothing was saved; start it again when you like.`, "ready");
          return null;
        }
        const to = Math.min(at + many, Math.max(total, 1));
        const begun = performance.now();
        const got = await slice(at, to);
        if (got === null) return null;
        found.push(got);
        const took = Math.max(performance.now() - begun, 1);
        at = to;
        this.progress.value = at;
        this.soFar.textContent = `${at} of ${total}`;
        many = Math.min(MOST, Math.max(1, Math.round((many * AIM) / took)), many * 4);
      }
      return found;
    } finally {
      clearTimeout(shown);
      this.bar.hidden = true;
      this.busy = false;
      if (said && this.desk.says === said) this.desk.status("The class desk is ready.", "ready");
    }
  }

  forget(...names) {
    for (const name of names) this.made.delete(name);
  }

  async blob(name) {
    if (this.made.has(name)) return this.made.get(name);
    const blob = await this.files.get(name)();
    if (blob && blob.size < KEPT) this.made.set(name, blob);
    return blob;
  }

  async save(name) {
    const blob = await this.blob(name);
    if (!blob) return false;
    download(blob, this.desk.called(name));
    this.desk.status(`${name} was handed to the browser to save.`, "ready");
    return true;
  }

  async print(name) {
    const blob = await this.blob(name);
    if (!blob) return;
    document.querySelector("#cd-printed")?.remove();
    const frame = document.createElement("iframe");
    frame.id = "cd-printed";
    frame.title = `${name}, to print`;
    frame.tabIndex = -1;
    frame.ariaHidden = "true";
    frame.addEventListener("load", () => {
      try {
        frame.contentWindow.focus();
        frame.contentWindow.print();
        this.desk.status(`${name} was handed to the browser to print.`, "ready");
      } catch {
        this.desk.status(`This browser does not print ${name} from here. Save it, open the file and print it.`, "ready");
      }
    });
    frame.src = URL.createObjectURL(blob);
    document.body.append(frame);
  }
}
