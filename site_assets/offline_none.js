// In place of the worker where a site is no longer to be kept on devices: what was kept goes, pages load as they are.
// It takes over like a newer version does, so no page loses work by it. `mkdocs serve` has it, so that an author sees
// what was just written.
const here = new URL("./", self.location);

async function removeAll() {
  await caches.delete(`eight-readings kept ${here.pathname}`);
  await self.registration.unregister();
}

addEventListener("message", ({ data }) => data === "take over" && self.skipWaiting());
addEventListener("activate", (event) => event.waitUntil(removeAll()));
