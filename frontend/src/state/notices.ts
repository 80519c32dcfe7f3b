// Short messages: shown in a corner, and read out by screen readers.
import { signal } from "@preact/signals";

export interface Notice {
  id: number;
  what: string;
  remedy: string;
}

export const notices = signal<Notice[]>([]);
/** Read out, not shown. */
export const spoken = signal("");

let count = 0;

/** Something went wrong: stays until it is closed, or for long enough to be read. */
export function tell(notice: { what: string; remedy: string }): void {
  const id = ++count;
  const same = notices.value.filter((n) => n.what !== notice.what);
  notices.value = [...same.slice(-2), { id, ...notice }];
  window.setTimeout(() => {
    dismiss(id);
  }, 14_000);
}

export function dismiss(id: number): void {
  notices.value = notices.value.filter((n) => n.id !== id);
}

export function say(words: string): void {
  // The same words twice are read out only if something between them changes.
  spoken.value = spoken.value === words ? `${words}\u00a0` : words;
}
