// Measures as people read them. Lengths are written as `cordwright.units.length.format_length`
// writes them; a test holds the two together.

export type System = "metric" | "inch";

const INCH = 25.4;
const FRACTIONS = ["", "1/4", "1/2", "3/4"];

function inQuarters(quarters: number): string {
  const whole = Math.floor(quarters / 4);
  const part = FRACTIONS[quarters % 4] ?? "";
  return whole && part ? `${whole} ${part}` : part || String(whole);
}

/** Halves go to the even neighbour, as in Python. */
function rounded(value: number): number {
  const down = Math.floor(value);
  const rest = value - down;
  if (rest !== 0.5) return Math.round(value);
  return down % 2 === 0 ? down : down + 1;
}

/** A length in mm, to the nearest millimetre or quarter of an inch. */
export function length(mm: number, system: System): string {
  const size = Math.abs(mm);
  const sign = mm < 0 ? "-" : "";
  if (system === "metric") {
    const whole = rounded(size);
    if (whole < 10) return `${whole ? sign : ""}${whole} mm`;
    const [unit, per] = whole < 1000 ? ["cm", 10] : ["m", 1000];
    return `${sign}${Number((whole / per).toFixed(3))} ${unit}`;
  }
  const quarters = rounded(size / (INCH / 4));
  if (quarters < 4 * 36) return `${quarters ? sign : ""}${inQuarters(quarters)} in`;
  const feet = Math.floor(quarters / 48);
  const rest = quarters % 48;
  return `${sign}${feet} ft${rest ? ` ${inQuarters(rest)} in` : ""}`;
}

/** How thick a cord is, as `cordwright.units.length.format_diameter` writes it. */
export function diameter(mm: number, system: System): string {
  if (system === "metric") return `${rounded(10 * mm) / 10} mm`;
  const parts = rounded(mm / (INCH / 32));
  const whole = Math.floor(parts / 32);
  let [over, under] = [parts % 32, 32];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const part = over ? `${over}/${under}` : "";
  return `${whole && part ? `${whole} ${part}` : part || whole} in`;
}

const POUND = 453.59237;
const OUNCE = POUND / 16;

/** A weight in g; pounds and ounces with inches. */
export function mass(g: number, system: System): string {
  if (system === "metric") {
    if (g < 1000) return `${Math.round(g)} g`;
    return `${Number((g / 1000).toFixed(g < 10_000 ? 2 : 1))} kg`;
  }
  if (g < POUND) return `${Number((g / OUNCE).toFixed(g < 100 ? 1 : 0))} oz`;
  const ounces = Math.round(g / OUNCE);
  const rest = ounces % 16;
  return `${Math.floor(ounces / 16)} lb${rest ? ` ${rest} oz` : ""}`;
}

/** A force in N, with the weight that pulls as much. */
export function force(n: number, system: System): string {
  const g = (n / 9.80665) * 1000;
  return `${n < 10 ? n.toFixed(1) : Math.round(n)} N (as ${mass(g, system)})`;
}

/** A length as it is written into a plan: exact to a tenth of a millimetre, or of a quarter inch. */
export function written(mm: number, system: System): string {
  if (system === "inch") {
    const quarters = Math.round(mm / (INCH / 4));
    return `${inQuarters(quarters)} in`;
  }
  if (Math.abs(mm) < 10) return `${Number(mm.toFixed(1))} mm`;
  return `${Number((mm / 10).toFixed(2))} cm`;
}

/** How far one press of a stepper goes, mm. */
export function step(mm: number, system: System): number {
  if (system === "inch") return mm <= 2 * INCH ? INCH / 4 : mm < 24 * INCH ? INCH / 2 : INCH;
  return mm <= 30 ? 1 : mm <= 100 ? 5 : mm < 1000 ? 10 : 50;
}

/** The next multiple of the step in a direction. */
export function stepped(mm: number, by: 1 | -1, times: number, system: System): number {
  const size = step(by < 0 ? mm - 0.01 : mm, system) * times;
  const at = mm / size;
  const next = by > 0 ? Math.floor(at + 1e-6) + 1 : Math.ceil(at - 1e-6) - 1;
  return Math.max(0, next * size);
}

/** A length of cord in all: to the nearest 10 cm above 10 m, or foot above 30 ft. */
export function roughly(mm: number, system: System): string {
  if (system === "metric") return length(mm < 10_000 ? mm : Math.round(mm / 100) * 100, system);
  const foot = 12 * INCH;
  return length(mm < 30 * foot ? mm : Math.round(mm / foot) * foot, system);
}

/** So many of something: `1 knot`, `12 knots`. */
export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** What to try, as the server words it, as a sentence of its own. */
export function sentence(words: string): string {
  if (!words) return "";
  const text = words.charAt(0).toUpperCase() + words.slice(1);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
