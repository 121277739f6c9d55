// Keeps one version of the site on this device and serves all of it from there: all of a version or nothing, and
// never two at once. The build writes SITE above this line: {version, files: {address: its SHA-256 in base64}, later}.
// The files of `later` are megabytes that only few devices ever ask for: they are kept once they were asked for. Of them,
// what a host with a policy needs is kept there from the beginning.
//
// A file is kept under its address and its hash, so versions lie beside each other and share what is the same.
const here = new URL("./", self.location);
const files = new Map(Object.entries(SITE.files));
const later = new Set(SITE.later);
const STORE = `eight-readings kept ${here.pathname}`; // of this copy of the site; its host may have others
const AT_ONCE = 4;
const STRICT = "eight/glue.js"; // asked for where the worker's policy lets no script be unpacked (start.js)
// hosts send different media types for these, and a browser runs no file of a wrong type
const TYPES = {
  css: "text/css",
  csv: "text/csv",
  html: "text/html",
  js: "text/javascript",
  json: "application/json",
  mjs: "text/javascript",
  png: "image/png",
  svg: "image/svg+xml",
  wasm: "application/wasm",
  webmanifest: "application/manifest+json",
  zip: "application/zip",
};

const place = (path) => `${here.href}${path}?kept=${encodeURIComponent(files.get(path))}`;
const isPage = (path) => path === "" || path.endsWith("/");

// ---- keeping ----------------------------------------------------------------

addEventListener("install", (event) => event.waitUntil(keepAll()));

async function keepAll() {
  const store = await caches.open(STORE);
  // repeated until all files are there: an older version that starts meanwhile removes files that it does not use
  for (let left; (left = await missing(store)).length; ) {
    const one = async () => {
      for (let path; (path = left.pop()) !== undefined; ) await store.put(place(path), await fetched(path));
    };
    await Promise.all(Array.from({ length: AT_ONCE }, one));
  }
}

// files kept by an interrupted visit or by an older version are not fetched again
async function missing(store) {
  const there = new Set((await store.keys()).map((request) => request.url));
  const worker = await store.match(place("eight/worker.js"));
  const strict = worker?.headers.has("content-security-policy");
  const asked = (path) => !later.has(path) || (strict && path === STRICT);
  return [...files.keys()].filter((path) => asked(path) && !there.has(place(path)));
}

// The file of this very version: the browser refuses any other content by its hash, as when the site is just being
// replaced. What the page has loaded already is taken from the browser's own cache.
async function fetched(path) {
  const address = here.href + path;
  const integrity = `sha256-${files.get(path)}`;
  const got = await fetch(address, { integrity, cache: "force-cache" }).catch(() =>
    fetch(address, { integrity, cache: "reload" }),
  );
  const type = isPage(path) ? TYPES.html : TYPES[path.slice(path.lastIndexOf(".") + 1)];
  const said = (got.headers.get("content-type") || "").split(";")[0].trim();
  // unchanged where possible: a browser may keep compiled code with it
  if (!got.redirected && (!type || said === type)) return got;
  const headers = new Headers(got.headers);
  for (const name of ["content-encoding", "content-length"]) headers.delete(name); // it is decoded by now
  if (type) headers.set("content-type", type);
  return new Response(got.body, { headers });
}

addEventListener("activate", (event) => event.waitUntil(removeOld()));

async function removeOld() {
  const store = await caches.open(STORE);
  const ours = new Set([...files.keys()].map(place));
  const old = (await store.keys()).filter((request) => !ours.has(request.url));
  await Promise.all(old.map((request) => store.delete(request)));
}

// ---- serving ----------------------------------------------------------------

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== here.origin || !url.pathname.startsWith(here.pathname)) return;
  const path = url.pathname.slice(here.pathname.length).replace(/(^|\/)index\.html$/, "$1");
  // what follows a ? is for the page: a sheet with any code is the same file
  if (files.has(path)) event.respondWith(kept(path));
  else if (event.request.mode === "navigate") event.respondWith(notKept(event.request, path, url.search));
});

async function kept(path) {
  const store = await caches.open(STORE);
  const found = await store.match(place(path));
  if (found) return found;
  if (!later.has(path)) mend();
  const got = await fetched(path);
  if (later.has(path)) store.put(place(path), got.clone()).catch(() => {}); // a full device is no fault of this answer
  return got;
}

// the browser, or the person who uses it, may have deleted what was kept
let mending = null;
function mend() {
  mending ||= keepAll().catch(() => {}).finally(() => (mending = null)); // without a network, at the next page
}

async function notKept(request, path, search) {
  if (files.has(`${path}/`)) return Response.redirect(`${here.href}${path}/${search}`);
  try {
    return await fetch(request);
  } catch (error) {
    if (!files.has("404.html")) throw error;
    const { body, headers } = await kept("404.html");
    return new Response(body, { headers, status: 404 });
  }
}

// ---- from one version to the next -------------------------------------------

// Pages ask (site_assets/offline.js). A page goes on with the version that it was opened with; the next one takes over
// when no page is open, or when the only open one has just been loaded and loads itself again.
addEventListener("message", (event) => {
  const { data, source } = event;
  if (data === "which version?") source.postMessage({ serving: SITE.version });
  else if (data === "am I alone?") event.waitUntil(answer(source));
  else if (data === "take over") event.waitUntil(self.skipWaiting());
  else if (data?.mine === SITE.version) event.waitUntil(takeIn());
});

async function answer(page) {
  const open = await self.clients.matchAll({ type: "window" });
  if (open.length === 1 && open[0].id === page.id) page.postMessage("alone");
}

// The page of the first visit came over the network. It is served from here from now on if it is of this version,
// unless there is another such page, of which nothing is known.
async function takeIn() {
  const all = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const served = await self.clients.matchAll({ type: "window" });
  if (all.filter((page) => page.url.startsWith(here.href)).length === served.length + 1) await self.clients.claim();
}
