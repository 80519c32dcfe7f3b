// The page, put together from its data; everything that changes is made anew in its place.

/** @typedef {{heading: string, id: string, make: (lesson: any) => any}} Place */

/** Makes the page. */
function begin() {
  const data = JSON.parse(/** @type {HTMLElement} */ (document.getElementById("data")).textContent);
  const store = makeStore(data.mark, data.units);
  const lesson = makeLesson(data, store);
  lesson.along = makeAlong(lesson);
  lesson.choose(Math.min(Math.max(store.state.edition, 0), data.editions.length - 1));
  return lesson;
}

/**
 * The running lesson: which edition, in whose measures.
 * @param {any} data
 * @param {any} store
 */
function makeLesson(data, store) {
  /** @type {any} */
  const lesson = {
    data, store, words: data.words, dropBy: "",
    get units() {
      return store.state.units;
    },
    get system() {
      return store.state.units === "inch" ? "inch" : "metric";
    },
    get key() {
      return `e${store.state.edition}`;
    },
    /** @param {string} symbol */
    valueOf: (symbol) => lesson.values[lesson.edition.symbols.indexOf(symbol)],
    /** @param {number} index */
    choose(index) {
      store.state.edition = index;
      lesson.edition = data.editions[index];
      lesson.rebuild();
    },
    rebuild() {
      lesson.measure();
      const focused = document.activeElement?.id;
      buildPage(lesson);
      if (focused) document.getElementById(focused)?.focus();
      store.save();
    },
    /**
     * @param {string} symbol
     * @param {number} mm
     */
    set(symbol, mm) {
      const own = (store.state.values[lesson.key] ??= Object.create(null));
      own[symbol] = mm;
      lesson.refresh();
    },
    /** @param {number} mm */
    setGirth(mm) {
      store.state.girths[lesson.key] = mm;
      lesson.refresh();
    },
    asPlanned() {
      delete store.state.values[lesson.key];
      delete store.state.girths[lesson.key];
      lesson.rebuild();
    },
    measure: () => measure(lesson),
    refresh() {
      lesson.measure();
      store.save();
      fillPlaces(lesson);
      for (const input of document.querySelectorAll("#fit input")) {
        input.dispatchEvent(new Event("lesson-values"));
      }
    },
  };
  return lesson;
}

/**
 * The reader's values, held to their bounds, and what is cut for them.
 * @param {any} lesson
 */
function measure(lesson) {
  const { edition, store, data } = lesson;
  const own = store.state.values[lesson.key] ?? {};
  const bounds = new Map();
  for (const it of [...edition.cords, ...edition.sizes]) {
    if (it.symbol) bounds.set(it.symbol, [it.low, it.high]);
  }
  lesson.values = edition.symbols.map((/** @type {string} */ symbol, /** @type {number} */ i) => {
    if (!Object.hasOwn(own, symbol) || !bounds.has(symbol)) return edition.values[i];
    const [low, high] = bounds.get(symbol);
    return Math.min(Math.max(own[symbol], low), high);
  });
  lesson.girth = edition.girth === null ? null : store.state.girths[lesson.key] ?? edition.girth;
  lesson.fit = fittedEdition(data, edition, lesson.values, lesson.system);
  lesson.planned = fittedEdition(data, edition, edition.values, lesson.system);
}

/**
 * @param {any} data
 * @param {any} edition
 * @param {number[]} values
 * @param {System} system
 */
function fittedEdition(data, edition, values, system) {
  const cuts = { ...edition.cuts, forms: edition.forms, symbols: edition.symbols, values };
  return fitted(cuts, values, system, data.chances);
}

/** What is on the page, in order; made anew when measures change. */
const PLACES = [
  { id: "before", heading: "print-before", make: beginPart },
  { id: "materials", heading: "head-materials", make: materials },
  { id: "cuts", heading: "head-cuts", make: cutTable },
  { id: "knots", heading: "head-knots", make: knotsPart },
  { id: "steps", heading: "print-steps", make: sections },
  { id: "chart", heading: "print-chart", make: chartPart },
  { id: "sizes", heading: "print-sizes", make: sizesPart },
  { id: "ending", heading: "head-end", make: endPart },
];
const LASTING = new Set(["knots", "chart"]);

/** @param {any} lesson */
function buildPage(lesson) {
  const { words } = lesson;
  const page = /** @type {HTMLElement} */ (document.getElementById("page"));
  const fit = place("fit", words.fit, [
    ...panel(lesson),
    el("div", { id: "fit-notes", "aria-live": "polite" }),
    el("p", { class: "only-print", id: "fitted" }),
  ]);
  const links = [["fit", words.fit], ...PLACES.map((p) => [p.id, words[p.heading]])];
  page.replaceChildren(
    el("div", { id: "top" }, titlePart(lesson)),
    el("div", { class: "sheet" },
      el("nav", { class: "contents", "aria-label": words.contents },
        el("ul", {}, links.map(([id, text]) => el("li", {}, el("a", { href: `#${id}` }, text)))),
        el("div", { class: "progress" }, el("progress", { "aria-label": words["print-steps"] }),
          el("p", { class: "progress-words" }))),
      el("main", { id: "lesson", tabindex: -1 }, fit,
        PLACES.map((p) => place(p.id, words[p.heading], el("div", { id: `${p.id}-here` }))))),
    colophonPart(lesson));
  for (const p of PLACES.filter((q) => LASTING.has(q.id))) putIn(p, lesson);
  fillPlaces(lesson);
}

/**
 * @param {string} id
 * @param {string} heading
 * @param {any} children
 */
function place(id, heading, children) {
  return el("section", { id, class: "place", "aria-labelledby": `${id}-heading` },
    el("h2", { id: `${id}-heading` }, heading), children);
}

/**
 * @param {Place} p
 * @param {any} lesson
 */
function putIn(p, lesson) {
  const here = /** @type {HTMLElement} */ (document.getElementById(`${p.id}-here`));
  here.replaceChildren(...[p.make(lesson)].flat().filter(isThere));
}

/** @param {any} lesson */
function fillPlaces(lesson) {
  for (const p of PLACES.filter((q) => !LASTING.has(q.id))) putIn(p, lesson);
  const put = (/** @type {string} */ id, /** @type {any} */ what) =>
    /** @type {HTMLElement} */ (document.getElementById(id)).replaceChildren(...[what].flat());
  put("facts", facts(lesson));
  put("fit-notes", fitNotes(lesson));
  put("fitted", fittedWords(lesson));
  showProgress(lesson);
}

const running = begin();
// For the tests, which compare the page's arithmetic with the program's.
Object.defineProperty(globalThis, "cordwright", {
  value: Object.freeze({
    lesson: running, fittedEdition, lengthText, cutText, thickText, weightText, studentChance,
    normalChance, lineText, partsOf, spareOf,
  }),
});
