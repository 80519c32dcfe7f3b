// A figure that follows from the plan: it stands out for a moment when it has changed.
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";

export function Num({ children, soft }: { children: string; soft?: boolean }): JSX.Element {
  const here = useRef<HTMLSpanElement>(null);
  const before = useRef(children);
  useEffect(() => {
    const span = here.current;
    if (!span || before.current === children) return;
    before.current = children;
    span.classList.remove("changed");
    // Only once it has been without the class does the animation begin anew.
    requestAnimationFrame(() => {
      span.classList.add("changed");
    });
  }, [children]);
  return (
    <span ref={here} class={`num${soft ? " soft" : ""}`}>
      {children}
    </span>
  );
}
