// Where the reader says what is different for them: cord, sizes, pot, drop, units, edition.

/** What sizes are entered in. */
const ENTERED = {
  metric: { mm: 10, name: "cm", step: 0.5, digits: 1 },
  inch: { mm: INCH_MM, name: "in", step: 0.25, digits: 2 },
};

/**
 * @param {Lesson} lesson
 */
function panel(lesson) {
  const { words, edition } = lesson;
  const sizes = edition.sizes.filter((/** @type {any} */ s) => s.symbol);
  return [
    el("p", { class: "lead" }, words["fit-about"]),
    el("div", { class: "choices" }, editionChoice(lesson), unitChoice(lesson)),
    el("div", { class: "fields" },
      edition.cords.map((/** @type {any} */ cord) => cordField(lesson, cord)),
      sizes.map((/** @type {any} */ size) => sizeField(lesson, size)),
      edition.girth === null ? null : girthField(lesson),
      dropField(lesson, sizes),
    ),
    el("p", { class: "fields-end" },
      el("button", { type: "button", id: "as-planned", onclick: () => lesson.asPlanned() },
        words["plan-measures"])),
  ];
}

/** @param {Lesson} lesson */
function editionChoice(lesson) {
  const { editions } = lesson.data;
  if (editions.length < 2) return null;
  return choice("edition", lesson.words.edition,
    editions.map((/** @type {any} */ e, /** @type {number} */ i) => [String(i), e.name]),
    String(lesson.store.state.edition), (value) => lesson.choose(Number(value)));
}

/** @param {Lesson} lesson */
function unitChoice(lesson) {
  const names = ["metric", "inch", "both"].map((u) => [u, lesson.words[`units-${u}`]]);
  return choice("units", lesson.words.units, names, lesson.units, (value) => {
    lesson.store.state.units = value;
    lesson.rebuild();
  });
}

/**
 * A few choices, one of them taken.
 * @param {string} name
 * @param {string} legend
 * @param {string[][]} options value and words
 * @param {string} taken
 * @param {(value: string) => void} take
 */
function choice(name, legend, options, taken, take) {
  return el("fieldset", { class: "choice" }, el("legend", {}, legend),
    options.map(([value, words]) => el("label", { class: "pick" },
      el("input", {
        type: "radio", name, value, id: `${name}-${value}`, checked: value === taken,
        onchange: () => take(value),
      }),
      el("span", {}, words))));
}

/**
 * @param {Lesson} lesson
 * @param {any} cord
 */
function cordField(lesson, cord) {
  const { words, data } = lesson;
  const bounds = { low: thickText(cord.low, data.signs), high: thickText(cord.high, data.signs) };
  return field({
    id: `cord-${lesson.edition.symbols.indexOf(cord.symbol)}`,
    label: filled(words.diameter, { name: cord.name }),
    unit: "mm", per: 1, step: 0.1, digits: 2, low: cord.low, high: cord.high,
    hint: filled(words.bounds, bounds),
    held: filled(words["bounds-held"], bounds),
    bad: words["bounds-bad"],
    now: () => lesson.valueOf(cord.symbol),
    set: (mm) => lesson.set(cord.symbol, mm),
  });
}

/**
 * @param {Lesson} lesson
 * @param {any} size
 */
function sizeField(lesson, size) {
  const label = size.about ? filled(lesson.words["size-label"], size) : size.name;
  return lengthField(lesson, {
    id: `size-${lesson.edition.symbols.indexOf(size.symbol)}`, label, low: size.low,
    high: size.high, hint: "", now: () => lesson.valueOf(size.symbol),
    set: (/** @type {number} */ mm) => lesson.set(size.symbol, mm),
  });
}

/** @param {Lesson} lesson */
function girthField(lesson) {
  const planned = lesson.edition.girth;
  return lengthField(lesson, {
    id: "girth", label: lesson.words.pot, low: 0.25 * planned, high: 4 * planned,
    hint: lesson.words["pot-about"], now: () => lesson.girth,
    set: (/** @type {number} */ mm) => lesson.setGirth(mm),
  });
}

/**
 * The whole length, made up by one of the sizes: sums are linear, so one division finds it.
 * @param {Lesson} lesson
 * @param {any[]} sizes
 */
function dropField(lesson, sizes) {
  const { edition, words } = lesson;
  const form = edition.forms[edition.cuts.finished];
  /** @param {any} size */
  const weight = (size) => form[1 + edition.symbols.indexOf(size.symbol)] ?? 0;
  const able = sizes.filter((s) => weight(s) > 0.05).sort((a, b) => weight(b) - weight(a));
  if (!able.length) return null;
  const by = el("select", { id: "drop-by", onchange: () => lesson.rebuild() },
    able.map((s) => el("option", { value: s.symbol }, s.about || s.name)));
  by.value = able.some((s) => s.symbol === lesson.dropBy) ? lesson.dropBy : able[0].symbol;
  lesson.dropBy = by.value;
  by.addEventListener("change", () => (lesson.dropBy = by.value), { capture: true });
  const size = able.find((s) => s.symbol === by.value);
  const here = () => tallOf(edition, lesson.values);
  const reach = (/** @type {number} */ mm) => here() + weight(size) * (mm - lesson.valueOf(size.symbol));
  const made = lengthField(lesson, {
    id: "drop", label: words.drop, low: reach(size.low), high: reach(size.high),
    hint: words["drop-about"], now: here,
    set: (/** @type {number} */ mm) => {
      lesson.set(size.symbol, lesson.valueOf(size.symbol) + (mm - here()) / weight(size));
    },
  });
  if (able.length > 1) made.append(el("label", { class: "by" }, words["drop-by"], " ", by));
  return made;
}

/**
 * A field for a length in the reader's units.
 * @param {Lesson} lesson
 * @param {any} asked
 */
function lengthField(lesson, asked) {
  const entered = ENTERED[lesson.units === "inch" ? "inch" : "metric"];
  const bounds = { low: told(lesson, asked.low), high: told(lesson, asked.high) };
  return field({
    ...asked, unit: entered.name, per: entered.mm, step: entered.step, digits: entered.digits,
    hint: [asked.hint, filled(lesson.words.bounds, bounds)].filter(Boolean).join(" "),
    held: filled(lesson.words["bounds-held"], bounds),
    bad: lesson.words["bounds-bad"],
  });
}

/**
 * A number with its unit, held to its bounds with a message.
 * @param {{id: string, label: string, unit: string, per: number, step: number, digits: number,
 *   low: number, high: number, hint: string, held: string, bad: string, now: () => number,
 *   set: (mm: number) => void}} asked
 */
function field(asked) {
  const { id, per } = asked;
  const shown = () => String(Number((asked.now() / per).toFixed(asked.digits)));
  const wrong = el("span", { class: "wrong", id: `${id}-wrong`, role: "alert" });
  const input = el("input", {
    id, type: "number", inputmode: "decimal", step: "any", value: shown(),
    min: Number((asked.low / per).toFixed(3)), max: Number((asked.high / per).toFixed(3)),
    "aria-describedby": `${id}-hint ${id}-wrong`, autocomplete: "off",
  });
  const take = () => {
    const typed = Number(input.value);
    if (input.value === "" || !Number.isFinite(typed)) {
      wrong.textContent = asked.bad;
    } else if (input.value !== shown()) {
      const mm = typed * per;
      const slack = 0.5 * per * 10 ** -asked.digits;
      const held = Math.min(Math.max(mm, asked.low), asked.high);
      wrong.textContent = Math.abs(held - mm) > slack ? asked.held : "";
      asked.set(held);
    }
    input.value = shown();
    input.setAttribute("aria-invalid", wrong.textContent ? "true" : "false");
  };
  input.addEventListener("change", take);
  input.addEventListener("lesson-values", () => (input.value = shown()));
  return el("div", { class: "field" },
    el("label", { for: id }, asked.label),
    el("span", { class: "entry" }, input, el("span", { class: "unit" }, asked.unit)),
    el("span", { class: "hint", id: `${id}-hint` }, asked.hint), wrong);
}
