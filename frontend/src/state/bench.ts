// The open piece: what the server last said of it, and what is asked of the server.
import { batch, computed, signal } from "@preact/signals";
import { Behind, door, Offline, Refused, send } from "../api/http";
import { type Link, type Live, openLive } from "../api/live";
import type {
  ChangeRequest,
  Document,
  Hanging,
  Numbers,
  Picture,
  Problem,
  ProgressMessage,
  ServerMessage,
  Several,
} from "../api/types";
import { say, tell } from "./notices";
import { asked, measured, started } from "./speed";

/** One change by itself. */
export type Single = Several["changes"][number];
export type AnyChange = ChangeRequest["change"];

export const link = signal<Link>("opening");
export const doc = signal<Document | null>(null);
export const numbers = signal<Numbers | null>(null);
export const hanging = signal<Hanging | null>(null);
export const picture = signal<Picture | null>(null);
export const progress = signal<ProgressMessage | null>(null);
/** Whether the maker stopped what took long, so that something of the present state is missing. */
export const stopped = signal(false);
export const tryProblems = signal<Problem[]>([]);
export const waiting = signal(0);
export const gone = signal("");

/** Whether what is shown follows from a try that is not saved. */
export const trying = computed(() => numbers.value?.trying ?? null);
export const outline = computed(() => doc.value?.outline ?? null);

let live: Live | null = null;
let tryCount = 0;
let queue: Promise<unknown> = Promise.resolve();

export function open(name: string): void {
  close();
  live = openLive(name, heard, (now) => {
    link.value = now;
  });
}

export function close(): void {
  live?.close();
  live = null;
  batch(() => {
    doc.value = numbers.value = hanging.value = picture.value = progress.value = null;
    tryProblems.value = [];
    gone.value = "";
    link.value = "opening";
  });
}

function heard(message: ServerMessage): void {
  switch (message.kind) {
    case "document":
      stopped.value = false;
      take(message.document);
      break;
    case "numbers":
      if (fresh(message.numbers)) {
        numbers.value = message.numbers;
        tryProblems.value = [];
        measured("numbers", idOf(message.numbers), message.numbers.ms);
      }
      break;
    case "hanging":
      hanging.value = message.hanging;
      break;
    case "picture":
      if (seen(message.picture)) picture.value = message.picture;
      break;
    case "problem":
      if (message.trying === null || message.trying === tryCount) {
        tryProblems.value = message.problems;
      }
      break;
    case "progress":
      // Several things may take long at once; the end of one is not the end of the others.
      if (message.state === "running") progress.value = message;
      else if (progress.peek()?.stage === message.stage) progress.value = null;
      if (message.state === "cancelled") stopped.value = true;
      break;
    case "gone":
      gone.value = message.what;
      break;
  }
}

/** Latest wins: an answer to an older try, or of an older state, is left aside. */
function fresh(answer: { revision: number; trying: number | null }): boolean {
  if (answer.trying !== null) return answer.trying === tryCount && tryOpen;
  return answer.revision >= (doc.peek()?.good_revision ?? 0);
}

/** Pictures of states in between are shown too, so that the piece is seen to move. */
function seen(now: Picture): boolean {
  return now.trying === null ? now.revision >= (picture.peek()?.revision ?? 0) : fresh(now);
}

let tryOpen = false;

/** How a change is known until it is seen: tries have numbers of their own, so they count down. */
export function idOf(answer: { revision: number; trying: number | null }): number {
  return answer.trying === null ? answer.revision : -answer.trying;
}

function take(document: Document): void {
  const before = doc.peek();
  if (before && before.name === document.name && document.revision < before.revision) return;
  doc.value = document;
}

/** Show numbers of changes without saving them, while something is dragged. */
export function attempt(changes: [Single, ...Single[]]): number {
  const now = doc.peek();
  if (!now) return 0;
  tryOpen = true;
  tryCount += 1;
  started(-tryCount, asked());
  live?.send({ kind: "try", revision: now.revision, trying: tryCount, changes });
  return tryCount;
}

export function endAttempt(): void {
  tryOpen = false;
}

export function cancel(): void {
  live?.send({ kind: "cancel" });
}

export function refresh(): void {
  stopped.value = false;
  live?.send({ kind: "refresh" });
}

/** Change the plan; true if the server took the change. Changes wait for one another. */
export async function change(wanted: AnyChange): Promise<boolean> {
  return ask(async (now) =>
    send<Document>("POST", door(now.name, "/change"), { revision: now.revision, change: wanted }),
  );
}

export function set(path: string, value: unknown): Promise<boolean> {
  return change({ do: "set", path, value } as AnyChange);
}

export async function retype(text: string): Promise<boolean> {
  return ask(async (now) =>
    send<Document>("PUT", door(now.name, "/text"), { revision: now.revision, text }),
  );
}

export async function undo(): Promise<boolean> {
  return step("undo");
}

export async function redo(): Promise<boolean> {
  return step("redo");
}

async function step(which: "undo" | "redo"): Promise<boolean> {
  const done = await ask(async (now) =>
    send<Document>("POST", door(now.name, `/${which}`), { revision: now.revision }),
  );
  if (done) say(which === "undo" ? "Undone." : "Done again.");
  return done;
}

async function ask(how: (now: Document) => Promise<Document>): Promise<boolean> {
  const at = asked();
  const turn = queue.then(async () => {
    const now = doc.peek();
    if (!now) return false;
    waiting.value += 1;
    started(now.revision + 1, at);
    try {
      endAttempt();
      take(await how(now));
      return true;
    } catch (problem) {
      report(problem);
      return false;
    } finally {
      waiting.value -= 1;
    }
  });
  queue = turn;
  return turn;
}

function report(problem: unknown): void {
  if (problem instanceof Behind) {
    take(problem.document);
    tell({
      what: "This piece was changed elsewhere meanwhile.",
      remedy: "What you see now is how it stands; your last change was not made. Make it again.",
    });
  } else if (problem instanceof Refused) {
    const first = problem.trouble.problems[0];
    tell({
      what: first?.what ?? problem.trouble.what,
      remedy: first?.remedy ?? problem.trouble.remedy,
    });
  } else if (problem instanceof Offline) {
    tell({
      what: "The workbench does not answer, so that change was not made.",
      remedy: "Everything before it is saved. Make it again when the workbench is back.",
    });
  } else {
    throw problem;
  }
}
