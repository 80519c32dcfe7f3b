// Told lines with the reader's own measures in them.

/** @typedef {any} Lesson the running lesson: data, edition, fit and store (see main.js) */

/**
 * A length as the reader wants it.
 * @param {Lesson} lesson
 * @param {number} mm
 * @param {boolean} [about]
 */
function told(lesson, mm, about) {
  return together(lengthText(mm, lesson.units, lesson.data.signs, about));
}

/**
 * A length whose number and unit stay on one line.
 * @param {string} words
 */
function together(words) {
  return words.replace(/ (?!\()/g, "\u00a0");
}

/**
 * From the least to the most; once where both are told alike.
 * @param {Lesson} lesson
 * @param {number[]} mms
 * @param {boolean} [about]
 */
function toldRange(lesson, mms, about) {
  const low = told(lesson, Math.min(...mms), about);
  const high = told(lesson, Math.max(...mms), about);
  return low === high ? low : filled(lesson.data.signs.range, { low, high });
}

/**
 * One part of a line as text.
 * @param {Lesson} lesson
 * @param {any} part
 * @returns {string}
 */
function partText(lesson, part) {
  const { edition, fit } = lesson;
  /** @param {number} form */
  const mm = (form) => valueOf(edition.forms[form], fit.values);
  if (typeof part === "string") return part;
  if ("q" in part) return told(lesson, mm(part.q), part.a);
  if ("r" in part) return toldRange(lesson, part.r.map(mm), part.a);
  if ("cut" in part) return fit.entryOf[part.cut];
  if ("part" in part) {
    const parts = partsOf(fit.cords[part.part[0]]);
    return told(lesson, part.part[1] === "short" ? Math.min(...parts) : Math.max(...parts));
  }
  const rests = part.left.map((/** @type {number[]} */ [cord, half, form]) => {
    return partsOf(fit.cords[cord])[half] - mm(form);
  });
  return toldRange(lesson, rests, part.a);
}

/**
 * @param {Lesson} lesson
 * @param {any[]} parts
 */
function lineText(lesson, parts) {
  const words = parts.map((part) => partText(lesson, part)).join("");
  return words.replace(/(\d)–(?=\d)/g, "$1\u2060–\u2060"); // a run of places stays on one line
}

/**
 * Lines as paragraphs, those of a list as its items.
 * @param {Lesson} lesson
 * @param {{parts: any[], item: boolean}[]} lines
 */
function paragraphs(lesson, lines) {
  /** @type {Node[]} */
  const made = [];
  for (const line of lines) {
    const words = lineText(lesson, line.parts);
    const last = made[made.length - 1];
    if (!line.item) made.push(el("p", {}, words));
    else if (last instanceof HTMLUListElement) last.append(el("li", {}, words));
    else made.push(el("ul", {}, el("li", {}, words)));
  }
  return made;
}

/**
 * What a step says; where the reader's measures part cords that the plan cuts alike, every cord.
 * @param {Lesson} lesson
 * @param {any} step
 */
function stepLines(lesson, step) {
  if (!step.marks || sameMarks(lesson, step.marks)) return paragraphs(lesson, step.lines);
  const cords = cordList(lesson, step.cords);
  if (step.replaced) return [el("p", {}, step.head || lesson.words["cords-here"]), cords];
  return [...paragraphs(lesson, step.lines), el("p", {}, lesson.words["cords-here"]), cords];
}

/**
 * Whether cords that are told by one mark still have one, and are folded as they were.
 * @param {Lesson} lesson
 * @param {number[][]} marks
 */
function sameMarks(lesson, marks) {
  const { fit, planned } = lesson;
  /** @param {CutCord} cut */
  const longer = (cut) => cut.fold !== null && cut.fold[0] > cut.fold[1];
  return marks.every((cords) => cords.every((n) => {
    const now = fit.cords[n];
    const then = planned.cords[n];
    const same = foldOf(now) === foldOf(then) && longer(now) === longer(then);
    return same && fit.entryOf[n] === fit.entryOf[cords[0]];
  }));
}

/**
 * @param {Lesson} lesson
 * @param {[number, string][]} cords with where they are
 */
function cordList(lesson, cords) {
  /** @type {{where: string[], text: string, cut: string, fold: string}[]} */
  const runs = [];
  for (const [n, where] of cords) {
    const cut = lesson.fit.entryOf[n];
    const fold = foldText(lesson, lesson.fit.cords[n]);
    const last = runs[runs.length - 1];
    if (last && last.cut === cut && last.fold === fold) last.where.push(where);
    else runs.push({ where: [where], text: "", cut, fold });
  }
  return el("ul", {}, runs.map((run) => {
    const where = run.where.filter(Boolean).join(", ") || "–";
    return el("li", {}, filled(lesson.words["cord-item"], { ...run, where }));
  }));
}

/**
 * How a cord is folded, in words; sides are the reader's.
 * @param {Lesson} lesson
 * @param {CutCord} cut
 */
function foldText(lesson, cut) {
  if (cut.halves.fold === "none") return lesson.words["fold-none"];
  if (cut.fold === null) return lesson.words["fold-middle"];
  const [a, b] = lesson.data.mirrored ? [cut.fold[1], cut.fold[0]] : cut.fold;
  return filled(lesson.words["fold-uneven"], { left: told(lesson, a), right: told(lesson, b) });
}
