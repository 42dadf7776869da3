"use strict";
// Fetches data and scripts when they are needed, by script tags: the one way that works from file: and http: alike.
(function (Benchlore) {
  const ROOT = new URL("../", document.currentScript.src);
  const arrived = new Map(); // name of a part -> its payload
  const loading = new Map(); // address -> promise

  /** Called by the script of a part: hands over its payload. */
  function part(name, payload) {
    arrived.set(name, payload);
  }

  /** Runs the script at an address below the site's root, once; a failure is tried anew when asked again. */
  function script(address) {
    if (loading.has(address)) return loading.get(address);
    const promise = new Promise((resolve, reject) => {
      const tag = document.createElement("script");
      tag.src = new URL(address, ROOT);
      tag.onload = () => resolve();
      tag.onerror = () => {
        loading.delete(address);
        tag.remove();
        reject(new Error(`${address} could not be read`));
      };
      document.head.append(tag);
    });
    loading.set(address, promise);
    return promise;
  }

  /** The payload of a part, from the script at an address below the site's root. */
  async function load(name, address) {
    if (!arrived.has(name)) await script(address);
    if (!arrived.has(name)) throw new Error(`${address} does not hold ${name}`);
    return arrived.get(name);
  }

  Object.assign(Benchlore, { ROOT, load, part, script });
})((globalThis.Benchlore ??= {}));
