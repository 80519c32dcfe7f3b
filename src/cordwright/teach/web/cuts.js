// Materials and the cut list, in the reader's measures, with a box to tick for every cord.

/** More cords of one mark than these have one box for all of them. */
const MOST_BOXES = 12;

/** @param {Lesson} lesson */
function materials(lesson) {
  const { words, edition, fit, data } = lesson;
  const rows = edition.cords.map((/** @type {any} */ cord) => {
    const thick = lesson.valueOf(cord.symbol);
    const mm = fit.totals[cord.name] ?? 0;
    const grams = edition.cuts.weights[cord.name];
    const weight = grams === null ? "" : weightText((grams * thick ** 2 * mm) / 1000,
      lesson.units, data.signs);
    return [cord.name, [thickText(thick, data.signs), cord.words].filter(Boolean).join(", "),
      told(lesson, mm), weight];
  });
  const heads = ["material", "about", "total", "weight"].map((key) => words[`col-${key}`]);
  return [
    table(words["head-materials"], heads, rows, [2, 3]),
    ...edition.mount.map((/** @type {any[]} */ line) => el("p", {}, lineText(lesson, line))),
    el("h3", {}, words["head-tools"]),
    el("ul", { class: "tools" }, edition.tools.map(
      (/** @type {any[]} */ line) => el("li", {}, lineText(lesson, line)))),
  ];
}

/**
 * A plain table; on a narrow screen every row becomes a small list.
 * @param {string} caption
 * @param {string[]} heads
 * @param {Child[][]} rows
 * @param {number[]} figures columns that are not broken
 * @param {string} [kind]
 */
function table(caption, heads, rows, figures, kind = "") {
  return el("table", { class: `grid ${kind}`.trim() },
    el("caption", { class: "unseen" }, caption),
    el("thead", {}, el("tr", {}, heads.map((h) => el("th", { scope: "col" }, h)))),
    el("tbody", {}, rows.map((row) => el("tr", {}, row.map((cell, i) => {
      const kind = figures.includes(i) ? "figure" : null;
      return el(i ? "td" : "th", { scope: i ? null : "row", "data-head": heads[i], class: kind },
        cell);
    })))));
}

/** @param {Lesson} lesson */
function cutTable(lesson) {
  const { words, data } = lesson;
  const heads = ["id", "count", "length", "cord", "fold", "spare", "done"];
  const rows = lesson.fit.entries.map((/** @type {CutEntry} */ entry) => {
    const fold = foldText(lesson, lesson.fit.cords[entry.cords[0]]);
    return [
      el("b", { class: "mark" }, entry.id),
      `${entry.cords.length} ×`,
      el("b", {}, together(cutText(entry.length, lesson.units, data.signs))),
      `${entry.cord}, ${words[`part-${entry.part}`]}`,
      entry.given ? `${fold}; ${words.already}` : fold,
      told(lesson, entry.spare),
      boxes(lesson, entry),
    ];
  });
  return [
    el("p", {}, words["cuts-done"]),
    table(words["head-cuts"], heads.map((key) => words[`col-${key}`]), rows, [1, 2, 5], "cut-list"),
  ];
}

/**
 * Boxes to tick for the cords of one mark.
 * @param {Lesson} lesson
 * @param {CutEntry} entry
 */
function boxes(lesson, entry) {
  const { words } = lesson;
  const many = entry.cords.length > MOST_BOXES;
  const groups = many ? [entry.cords] : entry.cords.map((cord) => [cord]);
  return el("span", { class: "boxes" }, groups.map((cords, i) => {
    const values = { n: many ? cords.length : i + 1, of: groups.length, cut: entry.id };
    return box({
      label: filled(words[many ? "cut-many" : "cut-one"], values),
      on: cords.every((n) => ticked(lesson.store.state.cuts, lesson.key, n)),
      set: (on) => {
        tick(lesson.store.state.cuts, lesson.key, cords, on);
        lesson.store.save();
      },
    });
  }));
}

/**
 * A box to tick; its words are seen only where they are given to be.
 * @param {{label: string, on: boolean, set: (on: boolean) => void, shown?: string, id?: string}} asked
 */
function box(asked) {
  const input = el("input", {
    type: "checkbox", checked: asked.on, id: asked.id,
    "aria-label": asked.shown === asked.label ? null : asked.label,
    onchange: () => asked.set(input.checked),
  });
  return el("label", { class: "tick" }, input,
    asked.shown ? el("span", {}, asked.shown) : el("span", { class: "tick-room" }));
}
