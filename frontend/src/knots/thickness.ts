// Thicknesses and other small lengths, as they are typed and shown in the knot room.
import type { System } from "../units";

const INCH = 25.4;
const NUMBER = /^(?:(\d+(?:[.,]\d+)?)\s*)?(?:(\d+)\/(\d+))?\s*(mm|cm|in|")?$/i;

/** A thickness in mm: `4`, `4.5 mm`, `1/8 in`, `1 1/2 in`; null if it is none that a cord can have. */
export function thickness(text: string, system: System): number | null {
  const parts = NUMBER.exec(text.trim());
  if (!parts || !text.trim()) return null;
  const [, whole = "0", above = "0", below = "1", unit] = parts;
  const value = Number(whole.replace(",", ".")) + Number(above) / Number(below);
  const named = unit?.toLowerCase() ?? (system === "metric" ? "mm" : "in");
  const mm = value * (named === "mm" ? 1 : named === "cm" ? 10 : INCH);
  return mm >= 0.1 && mm <= 100 ? Math.round(mm * 1000) / 1000 : null;
}

/** A small length: to a tenth of a millimetre, or a hundredth of an inch. */
export function small(mm: number, system: System): string {
  return system === "metric" ? `${mm.toFixed(1)} mm` : `${(mm / INCH).toFixed(2)} in`;
}

/** A cord's thickness: exact enough to be typed again. */
export function thick(mm: number, system: System): string {
  if (system === "metric") return `${Number(mm.toFixed(2))} mm`;
  const sixteenths = (mm / INCH) * 16;
  const whole = Math.round(sixteenths);
  if (Math.abs(sixteenths - whole) > 0.02 || whole === 0) return `${Number((mm / INCH).toFixed(3))} in`;
  let [above, below] = [whole % 16, 16];
  while (above && above % 2 === 0) [above, below] = [above / 2, below / 2];
  const ones = Math.floor(whole / 16);
  return `${[ones || "", above ? `${above}/${below}` : ""].filter(Boolean).join(" ")} in`;
}

/** One step thicker or thinner: half a millimetre, or a sixteenth of an inch. */
export function stepped(mm: number, by: 1 | -1, system: System): number {
  const size = system === "metric" ? 0.5 : INCH / 16;
  const next = Math.round(mm / size + by) * size;
  return Math.min(100, Math.max(size, next));
}
