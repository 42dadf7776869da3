"use strict";
// Makes elements without ever parsing markup: text stays text.
(function (Benchlore) {
  /** An element with attributes (false and null are left out) and children (texts, elements; null is left out). */
  function element(tag, attributes = {}, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value !== false && value !== null) made.setAttribute(name, value === true ? "" : value);
    }
    made.append(...children.flat().filter((child) => child !== null && child !== ""));
    return made;
  }

  /** The items with a text between neighbours, and another one before the last. */
  function joined(items, between = ", ", last = between) {
    return items.flatMap((item, at) => {
      if (at === 0) return [item];
      return [at === items.length - 1 ? last : between, item];
    });
  }

  /** "1 repair", "12 repairs"; a no-break space keeps the number with its word. */
  function counted(number, one, many = `${one}s`) {
    const grouped = String(number).replace(/\B(?=(\d{3})+$)/g, "\u202f");
    return `${grouped}\u00a0${number === 1 ? one : many}`;
  }

  Object.assign(Benchlore, { element, joined, counted });
})((globalThis.Benchlore ??= {}));
