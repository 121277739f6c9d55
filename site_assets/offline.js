// On every page: when the page is at rest, it has the whole site kept on this device. It changes to a newer version when no
// work can be lost. The worker that keeps the site is offline.js at the site's root (site_assets/offline_worker.js).
// This is a plain script, not a module: it also runs where a page was opened from a file, and says so there.
(() => {
  "use strict";
  const version = "VERSION"; // the build writes it here
  const root = new URL("../", document.currentScript.src);
  const workers = navigator.serviceWorker; // there are none unless the address is https or this machine's own
  const REST = 3000; // ms of rest after everything is loaded and Python is ready, so that the first check is not slowed
  const KEPT = "This site is kept on this device and opens without a network.";
  const NEWER =
    "A newer version of this site is kept too. It is used from the next page you open, when no other tab shows this one.";
  const NOT_KEPT = "This site could not be kept for use without a network. That is tried again at the next visit.";
  const HELPLESS = 8000; // ms after everything is loaded: a page that needs Python has asked for it by then
  const ENOUGH = 5000; // ms for scripts to come before the page is loaded again
  const LATE = 20000; // ms after which a page waits no longer for a style, and says that it lacks a script
  const NO_SCRIPT =
    "A script of this page did not arrive, so nothing is checked here. Look at the network, then try again. If it stays so, " +
    "tell whoever keeps this site: the host may send scripts by a wrong media type.";
  const NOT_YET =
    "A script of this page has not come yet, so nothing is checked here. Look at the network: it may go on by itself. If it " +
    "does not, try again.";
  const IN_PART =
    "Only a part of this page has come. Look at the network: it may go on by itself. If it does not, try again.";
  const TYPED = " What you type on the sheet is kept, and is checked then.";
  const FROM_FILE =
    "This page was opened from a file. That way nothing can be drawn or checked, and no other page is found: it needs an " +
    "address that begins with http. Ask whoever gave you these files for it.";

  function say(text) {
    let line = document.querySelector(".er-kept");
    if (!line) {
      const foot = document.querySelector(".md-copyright");
      if (!foot) return;
      line = document.createElement("div");
      line.className = "er-kept";
      foot.append(line);
    }
    line.textContent = text;
  }

  // whether the page's own script has come, or none is needed
  const begun = () => document.documentElement.dataset.python || !document.querySelector(".er-status");

  // the scripts do not come, so the page can only be read and printed
  function onPaper(told, status) {
    const note = document.createElement("div");
    note.className = "admonition warning er-from-file";
    const text = document.createElement("p");
    text.textContent = told;
    note.append(text);
    const title = document.querySelector("h1");
    if (!document.body) {
      document.open(); // a browser shows nothing of a page that broke off before its body
      document.write("<!doctype html><title>Eight Readings</title><body>");
      document.close();
    }
    if (title) title.after(note);
    else document.body.prepend(note);
    for (const line of document.querySelectorAll(".er-status")) line.textContent = status;
    for (const answers of document.querySelectorAll(".er-answers")) answers.classList.add("er-offered");
  }

  const whole = () => document.querySelector(".md-copyright"); // stands at the end of a page

  // Says what lacks: the rest of the page, or its script. That is taken back if it comes after all.
  function lacks(script) {
    if ((whole() && begun()) || document.querySelector(".er-from-file")) return;
    const told = whole() ? script : IN_PART;
    onPaper(document.querySelector(".er-entry") ? told + TYPED : told, "Nothing can be checked here.");
    const note = document.querySelector(".er-from-file");
    const button = Object.assign(document.createElement("button"), { type: "button", className: "er-again" });
    button.textContent = "Try again";
    button.onclick = () => Promise.race([fetchAnew(), rest(ENOUGH)]).then(() => location.reload());
    note.append(button);
    const come = () => whole() && begun() && note.remove();
    new MutationObserver(come).observe(document.documentElement, { attributeFilter: ["data-python"] });
    document.addEventListener("readystatechange", come);
  }

  // a wrong copy of a page or of a script that the browser keeps would come again at every visit
  function fetchAnew() {
    const all = performance.getEntriesByType("resource").map(({ name }) => name);
    const ours = [location.href, ...all.filter((name) => name.startsWith(root.href) && name.endsWith(".js"))];
    return Promise.allSettled(ours.map((name) => fetch(name, { cache: "reload" }).then((got) => got.text())));
  }

  function watch() {
    setTimeout(() => lacks(NO_SCRIPT), HELPLESS);
  }

  // A style that does not come holds up the whole page, so it is given up.
  function waitNoLonger() {
    if (document.readyState === "complete") return;
    for (const link of document.querySelectorAll('link[rel="stylesheet"]')) link.sheet || link.remove();
    setTimeout(() => lacks(NOT_YET), 1000);
  }

  // What is typed on a sheet before its script is there is kept for it (desk.js).
  function keepTyped() {
    const typed = [...document.querySelectorAll(".er-entry :is(input, select)")].filter((field) => field.value);
    if (begun() || !typed.length) return;
    const key = `eight-readings:sheet:early ${location.pathname}${location.search}`;
    try {
      const before = JSON.parse(localStorage.getItem(key)) || {};
      for (const { name, value } of typed) before[name] = value;
      localStorage.setItem(key, JSON.stringify(before));
    } catch {
      // this browser keeps nothing
    }
  }

  async function anything(store) {
    return (await caches.has(store)) && (await (await caches.open(store)).keys()).length > 0;
  }

  async function show(kept) {
    if (kept.waiting && workers.controller) say(NEWER);
    else if (kept.active && (await anything(`eight-readings kept ${root.pathname}`))) say(KEPT);
  }

  // a version that is being fetched, until it is there or has failed
  function follow(worker, kept) {
    worker.addEventListener("statechange", () => {
      if (worker.state === "redundant" && !kept.active) say(NOT_KEPT);
      else show(kept);
      if (worker.state === "activated") join(kept);
    });
  }

  // the page of the first visit asks to be served like those that follow
  function join(kept) {
    if (!workers.controller && kept.active) kept.active.postMessage({ mine: version });
  }

  async function loaded() {
    if (document.readyState !== "complete") await new Promise((done) => addEventListener("load", done, { once: true }));
  }

  // this script may run before there is anything of the page
  const parsed = new Promise((done) => {
    if (document.readyState !== "loading") done();
    document.addEventListener("readystatechange", done);
  });

  const rest = (ms) => new Promise((done) => setTimeout(done, ms));

  // A newer version that has been waiting takes over now, before anything is typed, if this is the only tab.
  async function changeOver() {
    let used = false;
    let alone = false;
    for (const event of ["keydown", "pointerdown", "input"]) addEventListener(event, () => (used = true), { once: true });
    const kept = await workers.getRegistration(root);
    if (!kept || kept.scope !== root.href) return;
    await parsed;
    show(kept);
    if (!kept.waiting) return;
    await loaded(); // a worker that is still sending files to this page gives way late, or not at all
    await rest(250);
    workers.addEventListener("message", ({ data }) => {
      if (data !== "alone" || alone || used || !kept.waiting) return;
      alone = true; // sent once: an old worker that gets more and more messages stays busy and ends no sooner
      kept.waiting.postMessage("take over");
    });
    // asked several times: the page before this one may not be closed completely yet
    for (let asked = 0; asked < 12 && kept.waiting && !used && !alone; asked++) {
      workers.controller.postMessage("am I alone?");
      await rest(250);
    }
  }

  async function atRest() {
    await loaded();
    do await rest(REST);
    while (document.querySelector('.er-status[data-state="starting"], .er-status[data-state="failed"]'));
  }

  async function begin() {
    let served = Boolean(workers.controller);
    workers.addEventListener("controllerchange", () => {
      if (served) location.reload(); // this page belongs to the version that has just been replaced
      served = true;
    });
    // a page that the browser restores as it was may belong to a version that was replaced
    addEventListener("pageshow", ({ persisted }) => persisted && workers.controller?.postMessage("which version?"));
    workers.addEventListener("message", ({ data }) => data?.serving && data.serving !== version && location.reload());
    workers.startMessages();
    if (served) await changeOver();
    await atRest();
    if (version === "none" || navigator.connection?.saveData) return;
    const kept = await workers.register(new URL("offline.js", root));
    if (!kept) return;
    show(kept);
    join(kept);
    if (kept.installing) follow(kept.installing, kept);
    kept.addEventListener("updatefound", () => follow(kept.installing, kept));
  }

  const fromFile = () => onPaper(FROM_FILE, "Nothing can be checked in a page that was opened from a file.");
  if (location.protocol === "file:") {
    parsed.then(fromFile);
  } else {
    loaded().then(watch);
    setTimeout(waitNoLonger, LATE);
    for (const event of ["input", "pagehide"]) addEventListener(event, keepTyped);
  }
  if (location.protocol !== "file:" && workers) begin().catch(() => {}); // the page works without this, so errors here are ignored
})();
