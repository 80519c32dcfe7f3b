// What this page cannot know, or what gives with the reader's measures; each with where it is from.

/** From so much thicker or thinner on it is said, as a part of the planned diameter. */
const NOTED = 0.1;
/** So much may pot and net differ in scale before it is said. */
const TIGHTER = 1.03;
const LOOSER = 1.1;
/** From so much on it is said that a piece hangs longer or shorter than its lengths add up. */
const UNLIKE = 0.01;

/**
 * @param {Lesson} lesson
 * @returns {{text: string, grave: boolean}[]}
 */
function notesOf(lesson) {
  const { words } = lesson;
  const changed = isChanged(lesson);
  const found = [
    ...lesson.edition.cords.flatMap((/** @type {any} */ cord) => cordNotes(lesson, cord)),
    ...closingNotes(lesson),
    ...potNotes(lesson),
  ];
  if (changed) found.push(quiet(words["note-counts"]));
  if (changed && lesson.edition.shape) found.push(quiet(words["note-shape"]));
  if (changed && lesson.edition.girth !== null) found.push(quiet(words["note-fit-other"]));
  found.push(...slackNotes(lesson));
  found.push(quiet(words["note-trial"]));
  return found;
}

/**
 * How the length of the piece is meant: as it hangs, not as its lengths add up.
 * @param {Lesson} lesson
 */
function slackNotes(lesson) {
  const { words, edition } = lesson;
  if (edition.hangs === null) return edition.girth === null ? [] : [quiet(words["note-slack"])];
  const summed = valueOf(edition.forms[edition.cuts.finished], edition.values);
  const found = [];
  if (Math.abs(edition.hangs - summed) > UNLIKE * summed) {
    const values = { hangs: told(lesson, edition.hangs, true), summed: told(lesson, summed, true) };
    found.push(quiet(filled(words["note-hangs"], values)));
  }
  if (isChanged(lesson)) found.push(quiet(words["note-hangs-changed"]));
  return found;
}

/** @param {string} text */
function quiet(text) {
  return { text, grave: false };
}

/** @param {string} text */
function grave(text) {
  return { text, grave: true };
}

/**
 * Whether anything is not as planned.
 * @param {Lesson} lesson
 */
function isChanged(lesson) {
  const { values } = lesson.edition;
  const moved = lesson.values.some(
    (/** @type {number} */ mm, /** @type {number} */ i) => Math.abs(mm - values[i]) > 1e-6,
  );
  return moved || lesson.girth !== lesson.edition.girth;
}

/**
 * @param {Lesson} lesson
 * @param {any} cord
 */
function cordNotes(lesson, cord) {
  const { words, data } = lesson;
  const i = lesson.edition.symbols.indexOf(cord.symbol);
  const ratio = lesson.values[i] / lesson.edition.values[i];
  const found = [];
  if (Math.abs(ratio - 1) > NOTED) {
    const percent = rounded(100 * Math.abs(ratio - 1));
    const key = ratio > 1 ? "note-thick" : "note-thin";
    found.push(quiet(filled(words[key], { cord: cord.name, percent })));
  }
  const [low, high] = cord.same;
  if (lesson.values[i] < low || lesson.values[i] > high) {
    const told = { low: thickText(low, data.signs), high: thickText(high, data.signs) };
    found.push(quiet(filled(words["note-same"], { cord: cord.name, ...told })));
  }
  return found;
}

/**
 * What cords close that are too thick.
 * @param {Lesson} lesson
 */
function closingNotes(lesson) {
  return lesson.edition.closings.flatMap((/** @type {any} */ closing) => {
    const wide = valueOf(lesson.edition.forms[closing.wide], lesson.values);
    const room = closing.kind === "row" ? lesson.girth : closing.room;
    if (wide <= room) return [];
    const values = { wide: told(lesson, wide), room: told(lesson, room) };
    return [grave(filled(lesson.words[`note-${closing.kind}`], values))];
  });
}

/**
 * Whether what stands in it and the net still go together: pots of one shape, larger or smaller,
 * want a net larger or smaller in the same measure.
 * @param {Lesson} lesson
 */
function potNotes(lesson) {
  const { edition, girth, words } = lesson;
  if (edition.girth === null || edition.net === null) return [];
  const form = edition.forms[edition.net];
  const net = valueOf(form, lesson.values) / valueOf(form, edition.values);
  const pot = girth / edition.girth;
  const values = { pot: rounded(100 * pot), net: rounded(100 * net) };
  if (pot > net * TIGHTER) return [grave(filled(words["note-tight"], values))];
  if (net > pot * LOOSER) return [grave(filled(words["note-loose"], values))];
  return [];
}
