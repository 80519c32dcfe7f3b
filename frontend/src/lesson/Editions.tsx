// Size editions: the same plan in several sizes, side by side in one booklet.
import type { JSX } from "preact";
import type { Document } from "../api/types";
import { Icon } from "../parts/Icon";
import { standing, wished, type Edition } from "./state";
import { Words } from "./Wishes";

const MOST = 6;

export function Editions({ now }: { now: Document }): JSX.Element | null {
  const { wish } = standing(now.name);
  const free = (now.outline?.sizes ?? []).filter((size) => size.uses.length === 0);
  if (!free.length) return null;
  const put = (editions: Edition[]): void => { wished(now.name, { editions }); };
  const change = (at: number, news: Partial<Edition>): void => {
    put(wish.editions.map((e, i) => (i === at ? { ...e, ...news } : e)));
  };
  return (
    <fieldset class="editions">
      <legend>Sizes</legend>
      {wish.editions.length === 0 && (
        <p class="soft small">As planned. Add sizes to have several side by side in one booklet.</p>
      )}
      {wish.editions.map((edition, at) => (
        <div class="edition" role="group" aria-label={edition.name || `Size ${at + 1}`} key={at}>
          <div class="edition-head">
            <Words name="Name" value={edition.name} put={(name) => { change(at, { name }); }} />
            <button
              type="button"
              class="quiet"
              aria-label={`Take out ${edition.name || `size ${at + 1}`}`}
              onClick={() => { put(wish.editions.filter((_, i) => i !== at)); }}
            >
              <Icon sign="bin" />
            </button>
          </div>
          {free.map((size) => (
            <Words
              key={size.name}
              name={size.name}
              value={edition.sizes[size.name] ?? ""}
              placeholder={size.text}
              put={(text) => { change(at, { sizes: { ...edition.sizes, [size.name]: text } }); }}
            />
          ))}
        </div>
      ))}
      {wish.editions.length < MOST && (
        <button
          type="button"
          onClick={() => {
            const made = { name: named(wish.editions), sizes: {} };
            const first = { name: "as planned", sizes: {} };
            put(wish.editions.length ? [...wish.editions, made] : [first, made]);
          }}
        >
          Add a size
        </button>
      )}
    </fieldset>
  );
}

const NAMES = ["small", "large", "tall", "wide", "extra large", "extra small"];

function named(editions: readonly Edition[]): string {
  return NAMES.find((name) => editions.every((e) => e.name !== name)) ?? "";
}
