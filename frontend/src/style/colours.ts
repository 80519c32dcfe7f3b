// Colours of the style sheet that the stage needs too.

export interface Colours {
  ground: string;
  glow: string;
}

export function colours(): Colours {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(name).trim();
  return { ground: of("--ground"), glow: of("--glow") };
}
