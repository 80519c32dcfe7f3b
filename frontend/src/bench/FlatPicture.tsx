// The flat picture, as it is printed; the server draws it.
import type { JSX } from "preact";
import { door } from "../api/http";
import { doc } from "../state/bench";
import { system } from "../state/prefs";
import { strandsLit } from "./state";

export function FlatPicture({ title }: { title: string }): JSX.Element | null {
  const now = doc.value;
  if (!now?.good_revision) return null;
  const strand = strandsLit.value?.length === 1 ? strandsLit.value[0] : null;
  const which = strand ? `/strand/${encodeURIComponent(strand)}` : "/picture.svg";
  const address = `${door(now.name, which)}?units=${system.value}&at=${now.good_revision}`;
  return (
    <div class="flat">
      <img src={address} alt={`${title}, drawn flat with its measures`} />
    </div>
  );
}
