// Runs Python in a thread of its own. Messages in: first {begin: {way, …}}, which says how Python is to start (start.js), then
// {id, call, args}; {give: true} in place of waiting for the start. Messages out: {id, value} or {id, error}. Without being
// asked: {ready: true} or {failed: sentence}, and before that {there: true} when all that the image needs has arrived, and
// {arrived: [bytes, of how many, whether more is waited for]} meanwhile. With {taken: …}, when it is asked to give and when
// the network failed, goes what has come, for the worker that starts next.
// A call is the name of a function of exercises.student.desk; one with dots, such as "record.page.check", is the
// function check of exercises.record.page.
import { forget, handedOver, start } from "./start.js";
import { Missed } from "./taken.js";

const modules = new Map(); // of exercises/, by name; each is imported when it is first needed
let started;
let over = false; // whether the runtime broke down, so that it answers nothing more

const said = (error) => String((error && error.message) || error);

function begin({ way, ...more }) {
  started = start(way, {
    ...more,
    there: () => postMessage({ there: true }),
    arrived: (...bytes) => postMessage({ arrived: bytes }),
  });
  started.then(
    ([python]) => {
      forget();
      python._api.on_fatal = () => (over = true);
      postMessage({ ready: true });
    },
    (error) => (error instanceof Missed ? give({ failed: said(error) }) : postMessage({ failed: said(error) })),
  );
}

function give(more) {
  const taken = handedOver();
  const buffers = new Set(taken.flatMap(([, { pieces }]) => pieces.map((piece) => piece.buffer)));
  postMessage({ ...more, taken }, [...buffers]);
}

async function named(call) {
  const [python, student] = await started;
  const at = call.lastIndexOf(".");
  if (at < 0) return student[call];
  const room = call.slice(0, at);
  if (!modules.has(room)) modules.set(room, python.pyimport(`exercises.${room}`));
  return modules.get(room)[call.slice(at + 1)];
}

async function answer({ id, call, args }) {
  try {
    const value = JSON.parse((await named(call))(...args));
    postMessage({ id, value });
  } catch (error) {
    postMessage({ id, error: said(error), over });
  }
}

onmessage = ({ data }) => {
  if (data.begin) begin(data.begin);
  else if (data.give) give();
  else answer(data);
};
