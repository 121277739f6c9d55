// What is kept on this device: the entries of each sheet by its code, and the last code of each kind.
const PREFIX = "eight-readings:";

function get(key) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + key));
  } catch {
    return null;
  }
}

// false where the browser keeps nothing (private windows, full storage)
function put(key, value) {
  try {
    localStorage.setItem(PREFIX + key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export const keep = {
  entries: (code) => get(`sheet:${code}`) || {},
  saveEntries: (code, entries) => put(`sheet:${code}`, entries),
  lastCode: (kind) => get(`last:${kind}`),
  saveLastCode: (kind, code) => put(`last:${kind}`, code),
};
