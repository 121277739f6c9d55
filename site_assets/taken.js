// One of the files of a start as a stream that survives cuts: what has come is not asked for again. A file is taken up
// where it broke off if the host says that it is still the same, by a strong tag or a date (RFC 9110, 8.8.3, 13.1.5, 14).
const WAITS = [0, 1000, 3000]; // ms before it is asked for again where nothing came meanwhile
const SURE = 60000; // ms by which a date must lie before the answer, so that it tells one content from the next

// the network's fault: a file did not come, and nothing is known against what did
export class Missed extends Error {}

const { fetch } = self; // the network's: a start puts its own in that place
const rest = (ms) => new Promise((done) => setTimeout(done, ms));
const rangeOf = (headers) => (/^bytes (\d+)-\d+\/(\d+)$/.exec(headers.get("Content-Range")) || []).slice(1).map(Number);

// what tells the content of an answer from any other; "" where nothing does
function markOf(headers) {
  if (headers.get("Content-Encoding") || headers.get("Accept-Ranges") === "none") return "";
  const tag = headers.get("ETag") || "";
  if (tag.startsWith('"')) return tag;
  const date = headers.get("Last-Modified");
  return Date.parse(headers.get("Date")) - Date.parse(date) >= SURE ? date : "";
}

// what has come of a file: with `pieces` they are kept, so that another worker can go on
export const nothing = (pieces = null) => ({ mark: "", bytes: 0, whole: false, pieces });

// Promises the stream when the host has answered. had: what came of the file, kept up to date; how: more for fetch;
// came(bytes): so much more has come, 0 where they were here before; ended(); lost(error): the file is given up.
export async function take(address, had, { how = {}, came = () => {}, ended = () => {}, lost = () => {} } = {}) {
  let begun = false; // whether the stream has given what was here
  let known = 0; // bytes of the host's answer that are here already
  let length = 0; // of the whole file in bytes; 0 where the host does not say
  let tries = 0; // since something came
  let reader = null;
  came(had.bytes);

  // Asks for what is not here yet. Of a whole file it asks for the last byte again: the host says if it is the same.
  async function ask() {
    const from = had.whole ? had.bytes - 1 : had.bytes;
    const headers = had.mark && from > 0 ? { Range: `bytes=${from}-`, "If-Range": had.mark } : {};
    const got = await fetch(address, { ...how, headers });
    const mark = markOf(got.headers);
    const [begin, whole] = rangeOf(got.headers);
    const another = got.status === 206 && (begin !== from || (mark && mark !== had.mark));
    if (another || got.status === 416) {
      had.mark = ""; // a host that takes no heed of If-Range: the next try begins anew
      throw new Missed(`${address}: another part came`);
    }
    if (!got.ok) throw new Missed(`${address}: ${got.status}`);
    if (got.status === 206) {
      [known, length] = [had.bytes - from, whole];
      return got;
    }
    const same = mark && mark === had.mark; // a host that knows no ranges
    if (!same && begun && had.bytes) throw new Missed(`${address} broke off, and cannot be taken up`);
    if (!same) {
      came(-had.bytes);
      Object.assign(had, nothing(had.pieces && []), { mark });
    }
    known = had.bytes;
    length = got.headers.get("Content-Encoding") ? 0 : Number(got.headers.get("Content-Length"));
    return got;
  }

  // the host's answer, asked for until there is one
  async function answer() {
    for (;;) {
      try {
        return await ask();
      } catch (error) {
        await pause(error);
      }
    }
  }

  async function pause(error) {
    if (error instanceof Missed) throw error;
    if (had.bytes && !had.mark) throw new Missed(`${address} broke off, and cannot be taken up`);
    if (tries === WAITS.length) throw new Missed(`${address}: ${error.message || error}`);
    await rest(WAITS[tries++]);
  }

  // the next piece that was not here before; null at the end
  async function next() {
    for (;;) {
      try {
        reader ||= (await answer()).body.getReader();
        const { value, done } = await reader.read();
        if (done && had.bytes >= length) return null;
        if (done) throw new Error("it broke off"); // some browsers take that for the end
        const old = Math.min(known, value.length);
        known -= old;
        came(value.length - old);
        if (old < value.length) return value.subarray(old);
      } catch (error) {
        reader = null;
        if (length && had.bytes === length) return null;
        await pause(error);
      }
    }
  }

  // It is read as it comes, and not as it is wanted: where a file breaks off, what was not read is lost.
  async function give(stream) {
    for (const piece of had.pieces || []) stream.enqueue(piece);
    begun = true;
    try {
      for (let piece; (piece = await next()); ) {
        tries = 0;
        had.bytes += piece.length;
        had.pieces?.push(piece);
        stream.enqueue(piece);
      }
      had.whole = true;
      stream.close();
      ended();
    } catch (error) {
      lost(error);
      stream.error(error);
    }
  }

  try {
    reader = (await answer()).body.getReader();
  } catch (error) {
    lost(error);
    throw error;
  }
  return new ReadableStream({ start: (stream) => void give(stream) });
}
