// What the maker likes, kept by the browser: light or dark, metric or inches.
import { effect, signal } from "@preact/signals";
import type { System } from "../units";

export type Theme = "system" | "light" | "dark";

function kept<T extends string>(key: string, allowed: readonly T[], otherwise: T): T {
  try {
    const found = localStorage.getItem(`cordwright.${key}`);
    return allowed.find((a) => a === found) ?? otherwise;
  } catch {
    return otherwise; // a browser that keeps nothing
  }
}

function keep(key: string, value: string): void {
  try {
    localStorage.setItem(`cordwright.${key}`, value);
  } catch {
    // a browser that keeps nothing
  }
}

const local = typeof navigator === "undefined" ? "" : navigator.language;

export const theme = signal<Theme>(kept("theme", ["system", "light", "dark"], "system"));
export const system = signal<System>(
  kept("units", ["metric", "inch"], local === "en-US" ? "inch" : "metric"),
);
export const dark = signal(false);

const wantsDark = window.matchMedia("(prefers-color-scheme: dark)");
export const calm = window.matchMedia("(prefers-reduced-motion: reduce)");

function settle(): void {
  dark.value = theme.value === "dark" || (theme.value === "system" && wantsDark.matches);
}

wantsDark.addEventListener("change", settle);
effect(() => {
  keep("theme", theme.value);
  settle();
});
effect(() => {
  keep("units", system.value);
});
effect(() => {
  document.documentElement.dataset["theme"] = dark.value ? "dark" : "light";
});
