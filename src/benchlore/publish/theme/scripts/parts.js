"use strict";
// Gets data and scripts when they are needed. From file: only script tags work; where fetch does, it is twice as fast.
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

  /** The payload in the text of a part's script. */
  async function fetched(address) {
    const response = await fetch(new URL(address, ROOT), { cache: address.includes("?") ? "reload" : "default" });
    if (!response.ok) throw new Error(`it answered ${response.status}`);
    const text = await response.text();
    return JSON.parse(text.slice(text.indexOf(",") + 1, text.lastIndexOf(")")));
  }

  /** The payload of a part, from the script at an address below the site's root. */
  async function load(name, address) {
    if (!arrived.has(name) && ROOT.protocol.startsWith("http")) {
      const payload = await fetched(address).catch(() => {
        throw new Error(`${address} could not be read`);
      });
      arrived.set(name, payload);
    }
    if (!arrived.has(name)) await script(address);
    if (!arrived.has(name)) throw new Error(`${address} does not hold ${name}`);
    return arrived.get(name);
  }

  /** Drops a part, so that it is taken from the script that comes next. */
  function forget(name) {
    arrived.delete(name);
  }

  Object.assign(Benchlore, { ROOT, forget, load, part, script });
})((globalThis.Benchlore ??= {}));
