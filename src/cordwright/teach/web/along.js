// Tying along: one step at a time, with large buttons, for a phone and wet hands.

/** @param {Lesson} lesson */
function makeAlong(lesson) {
  const place = /** @type {HTMLElement} */ (document.getElementById("along"));
  const page = /** @type {HTMLElement} */ (document.getElementById("page"));
  const skip = /** @type {HTMLElement} */ (document.querySelector(".skip"));
  const awake = keepAwake();
  /** @type {any[]} */
  let steps = [];
  let at = 0;

  /** @param {number} to */
  function show(to) {
    at = Math.max(0, Math.min(to, steps.length));
    lesson.store.state.at[lesson.key] = at;
    lesson.store.save();
    place.replaceChildren(at < steps.length ? screenOf(lesson, steps, at, moves) : endOf(lesson, moves));
    place.querySelector("h1")?.focus();
    scrollTo(0, 0);
  }

  const moves = {
    next() {
      if (at < steps.length) setDone(lesson, steps[at], true);
      show(at + 1);
    },
    back: () => show(at - 1),
    first: () => show(0),
    leave() {
      awake.end();
      place.hidden = true;
      place.replaceChildren();
      page.hidden = skip.hidden = false;
      document.documentElement.classList.remove("tying");
      removeEventListener("keydown", keys);
      const step = document.getElementById(`step-${steps[Math.min(at, steps.length - 1)].number}`);
      step?.scrollIntoView({ block: "center" });
      document.getElementById("along-start")?.focus({ preventScroll: true });
    },
  };

  /** @param {KeyboardEvent} event */
  function keys(event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const onControl = event.target instanceof Element
      && event.target.closest("button, input, select, a") !== null;
    if (event.key === "Escape") moves.leave();
    else if (event.key === "ArrowRight") moves.next();
    else if (event.key === "ArrowLeft") moves.back();
    else if (event.key === " " && !onControl) moves.next();
    else return;
    event.preventDefault();
  }

  return {
    start() {
      steps = allSteps(lesson);
      page.hidden = skip.hidden = true;
      place.hidden = false;
      document.documentElement.classList.add("tying");
      addEventListener("keydown", keys);
      awake.begin();
      const kept = lesson.store.state.at[lesson.key] ?? 0;
      show(kept >= steps.length ? 0 : kept);
    },
  };
}

/**
 * @param {Lesson} lesson
 * @param {any[]} steps
 * @param {number} at
 * @param {any} moves
 */
function screenOf(lesson, steps, at, moves) {
  const { words, data } = lesson;
  const step = steps[at];
  const pictures = step.along.map((/** @type {any} */ f) =>
    el("figure", { class: "card" }, picture(f, data.figures)));
  return el("main", { class: "screen", "aria-live": "polite" },
    el("header", { class: "screen-head" },
      el("button", { type: "button", class: "leave", onclick: moves.leave }, words["along-leave"]),
      el("p", {}, step.heading),
      el("progress", { max: steps.length, value: at, "aria-label": words["print-steps"] })),
    el("div", { class: "screen-body" },
      el("h1", { tabindex: -1 }, el("span", { class: "of" },
        filled(words["step-of"], { n: step.number, of: steps.length })), step.title || ""),
      pictures.length ? el("div", { class: "pictures" }, pictures) : null,
      el("div", { class: "words" }, stepBody(lesson, step))),
    el("div", { class: "screen-moves" },
      el("button", { type: "button", class: "back", onclick: moves.back, disabled: at === 0 },
        words["along-back"]),
      el("button", { type: "button", class: "next", onclick: moves.next }, words["along-next"])));
}

/**
 * @param {Lesson} lesson
 * @param {any} moves
 */
function endOf(lesson, moves) {
  const { words, edition } = lesson;
  return el("main", { class: "screen", "aria-live": "polite" },
    el("header", { class: "screen-head" },
      el("button", { type: "button", class: "leave", onclick: moves.leave }, words["along-leave"])),
    el("div", { class: "screen-body" },
      el("h1", { tabindex: -1 }, words["along-end"]),
      el("div", { class: "words" }, edition.ending.map(
        (/** @type {any[]} */ line) => el("p", {}, lineText(lesson, line))))),
    el("div", { class: "screen-moves" },
      el("button", { type: "button", class: "back", onclick: moves.back }, words["along-back"]),
      el("button", { type: "button", class: "next", onclick: moves.first }, words["along-again"])));
}

/** Keeps the screen on where the device allows it, and again when the page comes back to sight. */
function keepAwake() {
  /** @type {any} */
  let lock = null;
  let wanted = false;
  async function ask() {
    if (!wanted || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      if (!wanted) lock.release();
    } catch {
      lock = null; // not allowed here, or battery low: the screen goes off as usual
    }
  }
  document.addEventListener("visibilitychange", ask);
  return {
    begin() {
      wanted = true;
      ask();
    },
    end() {
      wanted = false;
      lock?.release();
      lock = null;
    },
  };
}
