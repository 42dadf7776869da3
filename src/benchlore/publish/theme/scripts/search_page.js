"use strict";
// Runs the search page: what is typed or chosen goes into the address's fragment, and from there to the results.
(function (Benchlore) {
  const { counted, element, findEntries, findFacets, openIndex, readFragment, writeFragment } = Benchlore;
  const EACH = 10; // hits shown at first, and how many more each time
  const PAUSE = 60; // milliseconds without a key before a search begins, where one key follows another
  const PATIENCE = 400; // milliseconds before the page says that it is reading
  const FACETS = Benchlore.tables.facets;

  const page = document.querySelector("[data-search-page]");
  const part = (name) => page.querySelector(`[data-${name}]`);
  const form = page.querySelector("form");
  const box = form.querySelector("input");
  const readAs = page.querySelector(".read-as");
  const [intro, found, narrow, total, sorting, hits, more, nothing, trouble] = [
    "intro", "found", "narrow", "total", "sorting", "hits", "more", "nothing", "trouble",
  ].map(part);
  const elsewhere = JSON.parse(page.dataset.elsewhere);
  const titleAtFirst = document.title;
  const lists = new Benchlore.FacetLists(part("facets"), choose, clearChoices);

  const EMPTY = { q: "", filters: new Map(), sort: "relevance" };
  let state = EMPTY;
  let limit = EACH;
  let turn = 0; // which search is the newest
  let pause = 0;
  let lastKey = -PAUSE; // when a key was pressed last
  let settled = true; // whether the address is one to come back to, or one still being typed

  function address() {
    return writeFragment(state) || location.pathname + location.search;
  }

  /** Puts the state into the address: a new step for "back" when it is chosen or begun, else in place of what was. */
  function note(typing) {
    if (writeFragment(state) !== writeFragment(readFragment(location.hash, FACETS))) {
      if (!typing || settled) history.pushState(null, "", address());
      else history.replaceState(null, "", address());
    }
    settled = !typing;
  }

  function change(next, typing = false) {
    state = next;
    limit = EACH;
    note(typing);
    clearTimeout(pause);
    const now = performance.now();
    pause = setTimeout(search, typing && now - lastKey < PAUSE ? PAUSE : 0);
    if (typing) lastKey = now;
  }

  /** What the address says becomes what is searched for. */
  function follow() {
    state = readFragment(location.hash, FACETS);
    settled = true;
    limit = EACH;
    if (box.value !== state.q) box.value = state.q;
    search();
  }

  async function search() {
    clearTimeout(pause);
    turn += 1;
    const mine = turn;
    trouble.replaceChildren();
    document.title = state.q.trim() ? `${state.q.trim()} · ${titleAtFirst}` : titleAtFirst;
    if (state.q.trim() === "" && state.filters.size === 0) {
      showIntro();
      return;
    }
    const slow = setTimeout(() => say("Reading the index …"), PATIENCE);
    try {
      const answer = await findEntries(state.q, state.filters, limit, state.sort);
      if (mine !== turn) return;
      show(answer);
      clearTimeout(slow);
      const facets = await findFacets(answer);
      if (mine !== turn) return;
      showFacets({ ...answer, facets });
      if (answer.total === 0) await offer({ ...answer, facets }, () => mine === turn);
    } catch (error) {
      if (mine === turn) showTrouble(error);
    } finally {
      clearTimeout(slow);
    }
  }

  /** Where the page of an entry lies: by its slug, save for the few slugs that make no good file name. */
  function pageOf(slug) {
    return Object.hasOwn(elsewhere, slug) ? elsewhere[slug] : `e/${slug}.html`;
  }

  function say(text) {
    found.hidden = false;
    intro.hidden = true;
    if (total.textContent !== text) total.textContent = text;
  }

  function showIntro() {
    intro.hidden = false;
    found.hidden = true;
    total.textContent = "";
    hits.replaceChildren();
    readAs.replaceChildren();
  }

  function showTrouble(error) {
    found.hidden = true;
    intro.hidden = true;
    const again = element("button", { type: "button" }, "Try again");
    again.addEventListener("click", search);
    trouble.replaceChildren(
      element("p", {}, element("b", {}, "The search could not read its data."), ` ${error.message}.`),
      element("p", {}, "The lists still lead to every repair: ", ...listLinks(), "."),
      again,
    );
  }

  function listLinks() {
    const links = [["classes.html", "equipment"], ["symptoms.html", "symptoms"], ["boards.html", "boards"]];
    return Benchlore.joined(links.map(([href, text]) => element("a", { href }, text)), ", ", " and ");
  }

  function show(answer) {
    say(answer.total === 0 ? "Nothing found" : counted(answer.total, "repair"));
    readAs.replaceChildren(...(Benchlore.readLine(answer) ?? []));
    hits.replaceChildren(...answer.hits.map((hit) => Benchlore.hitItem(hit, answer, pageOf(hit.slug))));
    const left = answer.total - answer.hits.length;
    more.hidden = left <= 0;
    more.textContent = `Show ${Math.min(EACH, left)} more`;
    sorting.hidden = answer.total < 2;
    for (const button of sorting.querySelectorAll("button")) {
      button.setAttribute("aria-pressed", String(button.dataset.sort === state.sort));
    }
    nothing.hidden = answer.total > 0;
    nothing.replaceChildren();
  }

  /** What narrows the hits down comes after them, since it is read after them. */
  function showFacets(answer) {
    narrow.hidden = !lists.draw(answer);
    const named = ({ label, excluded }) => (excluded ? `not ${label}` : label);
    const chosen = answer.facets.flatMap(({ values }) => values.filter((value) => value.chosen || value.excluded));
    part("chosen").textContent = chosen.map(named).join(", ");
  }

  /** Puts in what to do when nothing was found, unless another search has begun meanwhile. */
  async function offer(answer, isWanted) {
    const all = await findFacets(await findEntries("", new Map(), 0));
    if (isWanted()) nothing.replaceChildren(...offers(answer, all));
  }

  const linkTo = (facet, key) => writeFragment({ ...EMPTY, filters: new Map([[facet, [key]]]) });

  /** What to do when nothing was found. */
  function offers(answer, all) {
    const made = [];
    if (answer.unfiltered > 0) {
      const all = `Show ${counted(answer.unfiltered, "repair")} without your choices`;
      const button = element("button", { type: "button" }, all);
      button.addEventListener("click", clearChoices);
      made.push(element("p", {}, button));
    }
    if (answer.readAs.some((read) => read.kind === "phrase")) {
      const loose = { ...state, q: state.q.replace(/["\u201c\u201d\u201e\u201f\u00ab\u00bb]/g, " ").trim() };
      made.push(element("p", {}, "Words in quotes must stand together. ",
        element("a", { href: writeFragment(loose) }, "Look for them on their own"), "."));
    }
    const near = Benchlore.nearestValues(all, state.q);
    const shown = near.length > 0 ? near : Benchlore.commonestValues(all);
    if (shown.length > 0) {
      made.push(
        element("h3", {}, near.length > 0 ? "Nearest to it" : "Written up most"),
        element("ul", { class: "counted" }, shown.map(({ facet, key, label, count }) => (
          element("li", {}, element("a", { href: linkTo(facet, key) }, label),
            element("span", {}, counted(count, "repair")))
        ))),
      );
    }
    made.push(element("p", { class: "soft" }, "Or look through the lists: ", ...listLinks(), "."));
    return made;
  }

  /** The state with the filters that stand in the words moved to the choices. */
  async function gathered() {
    const { filters } = await findEntries(box.value, state.filters, 0);
    return { ...state, q: Benchlore.query.withoutFilters(box.value, FACETS), filters: new Map(filters) };
  }

  async function choose(name, key, chosen) {
    const next = await gathered();
    const keys = (next.filters.get(name) ?? []).filter((other) => other !== key);
    if (chosen) keys.push(key);
    next.filters.delete(name);
    if (keys.length > 0) next.filters.set(name, keys);
    box.value = next.q;
    change(next);
  }

  function clearChoices() {
    box.value = Benchlore.query.withoutFilters(box.value, FACETS);
    change({ ...state, q: box.value, filters: new Map() });
  }

  function moveFocus(event) {
    const links = [...hits.querySelectorAll("a")];
    const at = links.indexOf(document.activeElement);
    if (document.activeElement !== box && at < 0) return;
    const next = event.key === "ArrowDown" ? at + 1 : at - 1;
    if (next >= links.length || (at < 0 && next < 0)) return;
    event.preventDefault();
    (next < 0 ? box : links[next]).focus();
  }

  page.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.isComposing) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") moveFocus(event);
    if (event.key !== "Escape") return;
    if (document.activeElement === box && box.value !== "") {
      event.preventDefault();
      box.value = "";
      change({ ...state, q: "" });
    } else {
      box.focus();
    }
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    change({ ...state, q: box.value });
  });
  box.addEventListener("input", () => change({ ...state, q: box.value }, true));
  box.addEventListener("focus", () => openIndex().catch(() => {}), { once: true });
  more.addEventListener("click", async () => {
    const shown = hits.children.length;
    limit += EACH;
    await search();
    hits.children[shown]?.querySelector("a").focus();
  });
  sorting.addEventListener("click", ({ target }) => {
    if (target.dataset.sort) change({ ...state, sort: target.dataset.sort });
  });
  addEventListener("hashchange", follow);
  const wide = matchMedia("(min-width: 60rem)");
  const fit = () => {
    narrow.open = wide.matches;
  };
  wide.addEventListener("change", fit);
  fit();
  follow();
})((globalThis.Benchlore ??= {}));
