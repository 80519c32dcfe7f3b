// The parts of the page around the steps.

/** @param {Lesson} lesson */
function titlePart(lesson) {
  const { data, words } = lesson;
  return el("header", { class: "cover" },
    el("div", { class: "cover-words" },
      el("p", { class: "kind" }, words.kind,
        data.mirrored ? el("span", { class: "badge" }, words["print-left-handed"]) : null),
      el("h1", {}, data.title),
      data.about ? el("p", { class: "about" }, data.about) : null,
      el("dl", { class: "facts", id: "facts" }),
      el("p", { class: "starts" },
        el("button", {
          type: "button", class: "main-button", id: "along-start", onclick: () => lesson.along.start(),
        }, words.along),
        el("a", { class: "second-button", href: "#fit" }, words.fit)),
      el("p", { class: "hint" }, words["along-help"])),
    el("figure", { class: "card cover-picture" }, picture(data.cover, data.figures)));
}

/** @param {Lesson} lesson */
function facts(lesson) {
  const { words, edition, fit } = lesson;
  const finished = tallOf(edition, fit.values);
  const pairs = [
    [words["print-fact-length"], told(lesson, finished, true)],
    [words["print-fact-cord"], told(lesson, fit.total)],
    [words["print-fact-time"], edition.time],
    [words["print-fact-level"], edition.level],
  ];
  return pairs.map(([name, value]) => el("div", {}, el("dt", {}, name), el("dd", {}, value)));
}

/**
 * What the page was fitted to, for print.
 * @param {Lesson} lesson
 */
function fittedWords(lesson) {
  const { words, edition, data } = lesson;
  if (!isChanged(lesson)) return words["fitted-none"];
  const cords = edition.cords.map((/** @type {any} */ c) => filled(words["fitted-one"],
    { name: c.name, value: thickText(lesson.valueOf(c.symbol), data.signs) }));
  const sizes = edition.sizes.filter((/** @type {any} */ s) => s.symbol).map(
    (/** @type {any} */ s) => filled(words["fitted-one"],
      { name: s.about || s.name, value: told(lesson, lesson.valueOf(s.symbol)) }));
  return filled(words.fitted, { what: [...cords, ...sizes].join("; ") });
}

/** @param {Lesson} lesson */
function fitNotes(lesson) {
  const { words, edition, fit } = lesson;
  const finished = tallOf(edition, fit.values);
  const notes = notesOf(lesson);
  return [
    el("p", { class: "outcome" }, filled(words.changed,
      { total: told(lesson, fit.total), finished: told(lesson, finished, true) })),
    el("h3", {}, words.notes),
    el("ul", { class: "notes" }, notes.map((n) =>
      el("li", { class: n.grave ? "grave" : null }, n.text))),
  ];
}

/** @param {Lesson} lesson */
function beginPart(lesson) {
  const { words, edition, data } = lesson;
  const changed = isChanged(lesson);
  return el("ul", {},
    ["before-read", "before-swatch", data.mirrored ? "before-count-mirrored" : "before-count"].map(
      (key) => el("li", {}, words[`print-${key}`])),
    edition.facts.map((/** @type {any[]} */ line, /** @type {number} */ i) => {
      const planned = edition.width && i === 0 && changed;
      return el("li", {}, lineText(lesson, line), planned ? ` (${words["as-planned"]})` : "");
    }));
}

/** @param {Lesson} lesson */
function knotsPart(lesson) {
  const { data, words } = lesson;
  return [
    el("p", {}, words["print-knots-about"]),
    data.knots.map((/** @type {any} */ knot) => el("section", { class: "knot" },
      el("h3", {}, knot.name),
      el("ol", { class: "moves" }, knot.steps.map((/** @type {any} */ s) => el("li", {},
        el("div", { class: "card" }, picture(s.figure, data.figures)),
        el("p", {}, s.text)))))),
  ].flat();
}

/** @param {Lesson} lesson */
function sizesPart(lesson) {
  const { words, edition } = lesson;
  const rows = edition.sizes.map((/** @type {any} */ size) => {
    const value = "count" in size ? String(size.count)
      : told(lesson, valueOf(edition.forms[size.form], lesson.values));
    const why = size.fixed ? words["size-fixed"] : "";
    return [size.name, [size.about, why].filter(Boolean).join(". "), value];
  });
  const heads = ["size", "about", "here"].map((key) => words[`col-${key}`]);
  return rows.length ? table(words["print-sizes"], heads, rows, [2]) : null;
}

/** @param {Lesson} lesson */
function chartPart(lesson) {
  const { charts } = lesson.data;
  return charts.map((/** @type {any} */ chart) => [
    charts.length > 1 ? el("h3", {}, chart.title) : null,
    ...chart.about.map((/** @type {string} */ words) => el("p", {}, words)),
    el("p", {}, lesson.words["chart-planned"]),
    el("div", { class: "card chart", tabindex: 0, role: "group", "aria-label": chart.title },
      picture(chart.figure, lesson.data.figures)),
  ]).flat();
}

/** @param {Lesson} lesson */
function endPart(lesson) {
  const { words, edition } = lesson;
  const lines = (/** @type {any[][]} */ all) => all.map((line) => el("p", {}, lineText(lesson, line)));
  return [
    ...lines(edition.ending),
    edition.cautions.length
      ? el("div", { class: "cautions" }, el("h3", {}, words["head-cautions"]),
        el("ul", {}, edition.cautions.map((/** @type {any[]} */ line) =>
          el("li", {}, lineText(lesson, line)))))
      : null,
  ];
}

/** @param {Lesson} lesson */
function colophonPart(lesson) {
  const { words, data, store } = lesson;
  const asking = el("p", { class: "asking", hidden: true },
    el("span", {}, words["reset-ask"]), " ",
    el("button", {
      type: "button", id: "reset-yes", onclick: () => {
        store.reset();
        lesson.choose(0);
        say(words["reset-said"]);
        document.getElementById("reset")?.focus();
      },
    }, words["reset-yes"]), " ",
    el("button", {
      type: "button", id: "reset-no", onclick: () => {
        asking.hidden = true;
        document.getElementById("reset")?.focus();
      },
    }, words["reset-no"]));
  return el("footer", { class: "colophon" },
    el("p", { id: "kept" }, words[store.keeps ? "kept" : "not-kept"]),
    el("p", { class: "tools-line" },
      el("button", { type: "button", onclick: () => print() }, words.print), " ",
      el("button", {
        type: "button", id: "reset", onclick: () => {
          asking.hidden = false;
          document.getElementById("reset-yes")?.focus();
        },
      }, words.reset)),
    asking,
    data.colophon.map((/** @type {string} */ line) => el("p", { class: "small" }, line)),
    el("p", {}, el("a", { href: "#top" }, words["to-top"])));
}
