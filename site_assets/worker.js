// Runs Python in a thread of its own. Messages in: {id, call, args}; out: {id, value} or {id, error}. Once, without being
// asked: {ready: true, from: "image" or "plain"} or {failed: sentence, from}, and before that {there: true} when the whole
// image has arrived, and {arrived: [bytes, of how many]} meanwhile.
// A call is the name of a function of exercises.student.desk; one with dots, such as "record.page.check", is the
// function check of exercises.record.page. The worker's own name says how Python is to start.
import { start } from "./start.js";

const [way, rooms] = self.name.split(" "); // "rooms" where the page will ask for more than a student's does
const from = way === "plain" ? "plain" : "image";
const modules = new Map(); // of exercises/, by name; each is imported when it is first needed
const started = start(
  from,
  () => postMessage({ there: true }),
  (...bytes) => postMessage({ arrived: bytes }),
  Boolean(rooms),
);

let over = false; // whether the runtime broke down, so that it answers nothing more

const said = (error) => String((error && error.message) || error);
started.then(
  ([python]) => {
    python._api.on_fatal = () => (over = true);
    postMessage({ ready: true, from });
  },
  (error) => postMessage({ failed: said(error), from }),
);

async function named(call) {
  const [python, student] = await started;
  const at = call.lastIndexOf(".");
  if (at < 0) return student[call];
  const room = call.slice(0, at);
  if (!modules.has(room)) modules.set(room, python.pyimport(`exercises.${room}`));
  return modules.get(room)[call.slice(at + 1)];
}

onmessage = async ({ data: { id, call, args } }) => {
  try {
    const value = JSON.parse((await named(call))(...args));
    postMessage({ id, value });
  } catch (error) {
    postMessage({ id, error: said(error), over });
  }
};
