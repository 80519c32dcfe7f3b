// Signs of our own, drawn with one stroke; words stand beside them or in their label.
import type { JSX } from "preact";

const PATHS = {
  undo: "M8 5 4 9l4 4M4.5 9H13a5 5 0 0 1 0 10H9",
  redo: "m16 5 4 4-4 4M19.500 9H11a5 5 0 0 0 0 10h4",
  plus: "M12 6v12M6 12h12",
  minus: "M6 12h12",
  back: "M14 6l-6 6 6 6",
  open: "m10 7 5 5-5 5",
  down: "m7 10 5 5 5-5",
  close: "M7 7l10 10M17 7 7 17",
  copy: "M9 9h9v10H9zM6 15V5h9",
  up: "m7 14 5-5 5 5",
  bin: "M5 7h14M10 7V5h4v2M7 7l1 12h8l1-12",
  sun: "M12 8.200a3.800 3.800 0 1 1 0 7.600 3.800 3.800 0 0 1 0-7.600M12 3v2M12 19v2M3 12h2M19 12h2M5.600 5.600 7 7M17 17l1.400 1.400M18.400 5.600 17 7M7 17l-1.400 1.400",
  moon: "M18.500 14.500A7.500 7.500 0 0 1 9.500 5.500a7.500 7.500 0 1 0 9 9z",
  text: "M5 7h14M5 12h9M5 17h12",
  whole: "M8 4H5v3M16 4h3v3M8 20H5v-3M16 20h3v-3M12 8v8",
  warn: "M12 4 3.500 19h17zM12 10v4M12 16.500v.100",
  pot: "M6 9h12l-1.500 10h-9zM5 6h14v3H5z",
  more: "M6 12h.100M12 12h.100M18 12h.100",
  play: "M8.500 6v12l9.500-6z",
  pause: "M8 6h2v12H8zM14 6h2v12h-2z",
  round: "M19 12a7 7 0 1 1-2.500-5.400M17 3v4h-4",
  mirror: "M12 4v16M8.500 7.500 4 16.500h4.500zM15.500 7.500l4.500 9h-4.500z",
  rope: "M8 3v4c0 4 8 5 8 9v5M16 3v4c0 1.500-1.200 2.700-2.700 3.800M8 21v-5c0-1.500 1.200-2.700 2.600-3.700",
} as const;

export type Sign = keyof typeof PATHS;

export function Icon({ sign }: { sign: Sign }): JSX.Element {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[sign]} />
    </svg>
  );
}
