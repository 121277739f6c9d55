// Brings the theme's script. It lies here packed, as a third of its bytes come then from a host that compresses nothing; the
// page's policy knows the script by its hash. Where a browser cannot unpack, the same script comes as it is.
(() => {
  "use strict";
  const { src, dataset } = document.currentScript;

  // stands for the worker of the search: that is fetched when it is first told something, which is when the search is opened
  self.LaterWorker = class extends EventTarget {
    constructor(address) {
      super();
      this.address = address;
    }

    postMessage(told) {
      if (!this.worker) {
        this.worker = new Worker(this.address);
        this.worker.onmessage = ({ data }) => this.dispatchEvent(new MessageEvent("message", { data }));
      }
      this.worker.postMessage(told);
    }
  };

  const unpacked = async () => {
    const got = await fetch(new URL("theme.bin", src));
    if (!got.ok) throw new Error(`theme.bin: ${got.status}`);
    return new Response(got.body.pipeThrough(new DecompressionStream("gzip"))).text();
  };

  const script = document.createElement("script");
  const parsed = new Promise((done) => {
    if (document.readyState !== "loading") done();
    document.addEventListener("readystatechange", done);
  });
  // the theme begins at this event, which may be over by now
  const begin = () => document.dispatchEvent(new Event("DOMContentLoaded"));
  const both = Promise.all([unpacked(), parsed]);
  both.then(
    ([text]) => {
      script.textContent = text;
      document.head.append(script);
      begin();
    },
    async () => {
      await parsed;
      script.src = new URL(dataset.plain, document.baseURI);
      script.onload = begin;
      document.head.append(script);
    },
  );
})();
