// The steps, one below the other along a cord, and what was ticked of them.

/**
 * @param {Lesson} lesson
 * @returns {any[]} every step with its section's heading, in order
 */
function allSteps(lesson) {
  return lesson.edition.sections.flatMap((/** @type {any} */ section) =>
    section.steps.map((/** @type {any} */ step) => ({ ...step, heading: section.heading })));
}

/** @param {Lesson} lesson */
function sections(lesson) {
  return lesson.edition.sections.map((/** @type {any} */ section, /** @type {number} */ i) =>
    el("section", { class: "part", "aria-labelledby": `part-${i}` },
      el("h3", { id: `part-${i}` }, section.heading),
      el("ol", { class: "steps" }, section.steps.map((/** @type {any} */ s) => stepItem(lesson, s)))));
}

/**
 * @param {Lesson} lesson
 * @param {any} step
 */
function stepItem(lesson, step) {
  const { words, data } = lesson;
  const heading = filled(words.step, { n: step.number });
  const item = el("li", { class: "step", id: `step-${step.number}`, value: step.number },
    el("div", { class: "said" },
      el("h4", {}, el("span", { class: "bead" },
        el("span", { class: "unseen" }, `${heading} `.replace(/\d+ $/, "")), String(step.number)),
        step.title ? el("span", {}, step.title) : null,
        step.time ? el("span", { class: "time" }, step.time) : null),
      stepBody(lesson, step),
      el("p", { class: "done-line" }, doneBox(lesson, step))),
    step.figures.length
      ? el("div", { class: "beside" }, step.figures.map((/** @type {any} */ f) =>
        el("figure", { class: "card" }, picture(f, data.figures))))
      : null);
  item.classList.toggle("is-done", isDone(lesson, step));
  return item;
}

/**
 * What a step says, with its rows, checks and note.
 * @param {Lesson} lesson
 * @param {any} step
 */
function stepBody(lesson, step) {
  const { words } = lesson;
  return [
    ...stepLines(lesson, step),
    step.ticks ? rowTicks(lesson, step) : null,
    step.note ? el("p", { class: "note" }, el("b", {}, `${words["head-note"]}: `), step.note) : null,
    step.checks.length
      ? el("div", { class: "check" }, el("b", {}, words["head-check"]),
        el("ul", {}, step.checks.map((/** @type {any[]} */ line) =>
          el("li", {}, lineText(lesson, line)))))
      : null,
  ];
}

/**
 * A small box for every row, or every time that steps are done again.
 * @param {Lesson} lesson
 * @param {any} step
 */
function rowTicks(lesson, step) {
  const { words, store } = lesson;
  const key = `${lesson.key}/${step.number}`;
  const numbers = Array.from({ length: step.ticks }, (_, i) => i + 1);
  return el("fieldset", { class: "rows" }, el("legend", {}, words[step.again ? "times" : "rows"]),
    numbers.map((n) => box({
      label: filled(words.row, { n }), shown: filled(words.row, { n }),
      on: ticked(store.state.rows, key, n),
      set: (on) => {
        tick(store.state.rows, key, [n], on);
        const all = numbers.every((m) => ticked(store.state.rows, key, m));
        setDone(lesson, step, all);
      },
    })));
}

/**
 * @param {Lesson} lesson
 * @param {any} step
 */
function doneBox(lesson, step) {
  return box({
    id: `done-${step.number}`,
    label: `${filled(lesson.words.step, { n: step.number })}: ${lesson.words.done}`,
    shown: lesson.words.done,
    on: isDone(lesson, step),
    set: (on) => setDone(lesson, step, on),
  });
}

/**
 * @param {Lesson} lesson
 * @param {any} step
 */
function isDone(lesson, step) {
  return ticked(lesson.store.state.steps, lesson.key, step.number);
}

/**
 * Ticks a step, on the page as well.
 * @param {Lesson} lesson
 * @param {any} step
 * @param {boolean} on
 */
function setDone(lesson, step, on) {
  tick(lesson.store.state.steps, lesson.key, [step.number], on);
  lesson.store.save();
  const seen = /** @type {HTMLInputElement | null} */ (
    document.getElementById(`done-${step.number}`));
  if (seen) seen.checked = on;
  document.getElementById(`step-${step.number}`)?.classList.toggle("is-done", on);
  showProgress(lesson);
}

/** @param {Lesson} lesson */
function showProgress(lesson) {
  const steps = allSteps(lesson);
  const done = steps.filter((s) => isDone(lesson, s)).length;
  const words = filled(lesson.words.progress, { done, of: steps.length });
  for (const place of document.querySelectorAll(".progress-words")) place.textContent = words;
  for (const bar of document.querySelectorAll("progress")) {
    bar.max = steps.length;
    bar.value = done;
  }
}
