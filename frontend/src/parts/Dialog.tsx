// A dialog of the browser's own kind: it keeps the focus inside and gives it back.
import type { ComponentChildren, JSX } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { Icon } from "./Icon";

interface Props {
  title: string;
  close: () => void;
  wide?: boolean;
  children: ComponentChildren;
}

export function Dialog({ title, close, wide, children }: Props): JSX.Element {
  const here = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    here.current?.showModal();
  }, []);
  return (
    <dialog
      ref={here}
      class={wide ? "wide" : ""}
      aria-labelledby={id}
      onClose={close}
      onClick={(event) => {
        if (event.target === event.currentTarget) event.currentTarget.close();
      }}
    >
      <div class="dialog">
        <header>
          <h2 id={id}>{title}</h2>
          <button type="button" class="quiet" aria-label="Close" onClick={() => here.current?.close()}>
            <Icon sign="close" />
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
