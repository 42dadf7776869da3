"use strict";
// Draws the lists that narrow the results down: a group of checkboxes for each facet, with counts.
(function (Benchlore) {
  const { element } = Benchlore;
  const OPEN_AT_FIRST = ["class", "symptom", "component", "outcome"];
  const SHOWN_AT_FIRST = 6;

  const isPicked = (value) => value.chosen || value.excluded;

  class FacetLists {
    /** `form`: what to draw into; `choose(name, key, chosen)` and `clear()` are called when somebody does. */
    constructor(form, choose, clear) {
      this.form = form;
      this.open = new Set(OPEN_AT_FIRST);
      this.whole = new Set(); // facets of which all values are shown
      this.last = null;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("change", ({ target }) => choose(target.name, target.value, target.checked));
      form.addEventListener("click", ({ target }) => {
        if (target.dataset.clear !== undefined) clear();
        if (target.dataset.whole !== undefined) this.showWhole(target.dataset.whole);
      });
      form.addEventListener("toggle", ({ target }) => {
        if (target.open) this.open.add(target.dataset.facet);
        else this.open.delete(target.dataset.facet);
      }, true);
    }

    /** Draws the facets of an answer, keeping the focus where it was; whether there was anything to draw. */
    draw(answer) {
      this.last = answer;
      const before = document.activeElement;
      const held = this.form.contains(before) && before.name ? [before.name, before.value] : null;
      const useful = answer.facets.filter(({ values }) => (
        values.length > 1 || values.some((value) => value.chosen || value.excluded || value.count < answer.total)
      ));
      const clear = answer.filters.size > 0 && element("button", { type: "button", class: "clear", "data-clear": true },
        "Clear all choices");
      this.form.replaceChildren(...[clear, ...useful.map((facet) => this.list(facet))].filter(Boolean));
      if (held) this.box(...held)?.focus();
      return useful.length > 0;
    }

    box(name, key) {
      return [...this.form.elements].find((box) => box.name === name && box.value === key);
    }

    list({ name, label, values }) {
      const some = this.whole.has(name) ? values : values.filter((value, at) => at < SHOWN_AT_FIRST || isPicked(value));
      const rest = values.length - some.length;
      const more = rest > 0 && element("button", { type: "button", class: "whole", "data-whole": name },
        `${rest} more`, element("span", { class: "unseen" }, ` of ${label}`));
      const open = this.open.has(name) || values.some(isPicked);
      return element("details", { "data-facet": name, open },
        element("summary", {}, label),
        element("fieldset", {},
          element("legend", { class: "unseen" }, label),
          ...some.map((value) => this.choice(name, value)),
          more || null));
    }

    choice(name, { key, label, count, chosen, excluded }) {
      const box = element("input", { type: "checkbox", name, value: excluded ? `-${key}` : key });
      box.checked = chosen || excluded;
      return element("label", { class: "choice" }, box, element("span", {}, excluded ? `not ${label}` : label),
        element("span", { class: "count" }, String(count), element("span", { class: "unseen" }, " repairs")));
    }

    showWhole(name) {
      const { values } = this.last.facets.find((facet) => facet.name === name);
      const next = values.filter((value, at) => at >= SHOWN_AT_FIRST && !isPicked(value))[0];
      this.whole.add(name);
      this.draw(this.last);
      this.box(name, next.key)?.focus();
    }
  }

  Benchlore.FacetLists = FacetLists;
})((globalThis.Benchlore ??= {}));
