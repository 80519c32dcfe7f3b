// Something that takes a while: what is being done, how far it is, and a button that ends it.
import type { JSX } from "preact";
import type { Making } from "../api/types";
import { ended, giveUp } from "../state/making";
import { sentence } from "../units";

export function Progress({ now, name }: { now: Making; name: string }): JSX.Element | null {
  if (now.state === "failed") {
    return (
      <div class="failed" role="alert">
        <strong>{now.trouble}</strong>
        {now.remedy && <p>{sentence(now.remedy)}</p>}
      </div>
    );
  }
  if (ended(now)) return null;
  return (
    <div class="making" role="status">
      <p>{now.what} …</p>
      <progress aria-label={name} {...(now.share === null ? {} : { value: now.share })} />
      <button type="button" onClick={() => void giveUp(now)}>Cancel</button>
    </div>
  );
}
