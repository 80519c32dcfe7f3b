// What can be said of a run of kits beside how many: cord to cut from, what goes in, what it costs.
import type { JSX } from "preact";
import type { Document } from "../api/types";
import { Words } from "../lesson/Wishes";
import { type Column, Lines } from "../parts/Lines";
import { IN_KIT, type Simple, type Wanted } from "./asked";

type Names = readonly (readonly [Simple, string])[];

export const CORD_WORDS: Names = [["keep", "Least rest worth keeping"]];

export const MONEY: Names = [
  ["currency", "Currency, as in EUR"],
  ["minutes", "Minutes of work for a kit"],
  ["hourly", "An hour of work costs"],
  ["overhead", "Overhead, percent"],
  ["fixed", "Once for the run"],
  ["wholesale", "Wholesale: times the cost"],
  ["retail", "Retail: times wholesale"],
  ["asked", "Price that has to earn it back, if not retail"],
  ["studio", "Studio, for labels"],
];

const THINGS: readonly Column[] = [
  { key: "name", name: "What", example: "as in wooden bead" },
  { key: "price", name: "Price", example: "1.20" },
  { key: "weight", name: "Weight", example: "15 g" },
  { key: "count", name: "How many", example: "1" },
];

interface Props {
  wanted: Wanted;
  fill: (news: Partial<Wanted>) => void;
}

export function Simples({ names, wanted, fill }: Props & { names: Names }): JSX.Element {
  return (
    <>
      {names.map(([word, name]) => (
        <Words
          key={word}
          name={name}
          value={wanted.words[word] ?? ""}
          put={(text) => { fill({ words: { ...wanted.words, [word]: text } }); }}
        />
      ))}
    </>
  );
}

/** Cord that is not on the shelf: what can be bought, and what lies at hand. */
export function Cord({ now, wanted, fill }: Props & { now: Document }): JSX.Element {
  const cords = (now.outline?.cords ?? []).map((c) => [c.name, c.name] as const);
  const columns: readonly Column[] = [
    { key: "cord", name: "Cord of the plan", choices: cords },
    { key: "length", name: "Length", example: "100 m" },
    { key: "price", name: "Price", example: "12.50" },
    { key: "count", name: "How many", example: "any" },
  ];
  return (
    <details class="more">
      <summary>Cord to buy, spools at hand</summary>
      <Lines
        name="Can be bought"
        about="Spools as they are sold. How many are needed is worked out; beside what suppliers on the shelf sell."
        add="Add what can be bought"
        columns={columns}
        lines={wanted.buys}
        put={(buys) => { fill({ buys }); }}
      />
      <Lines
        name="At hand, not on the shelf"
        about="Spools and left-overs that are there, with what they are worth."
        add="Add a spool at hand"
        columns={columns.map((c) => (c.key === "count" ? { ...c, example: "1" } : c))}
        lines={wanted.spools}
        put={(spools) => { fill({ spools }); }}
      />
      <Simples
        names={[["setup", "Cord that may be lost to open one spool fewer"]]}
        wanted={wanted}
        fill={fill}
      />
    </details>
  );
}

/** What goes into each kit beside cord, what it is packed with, and its parcel. */
export function Kit({ wanted, fill }: Props): JSX.Element {
  return (
    <details class="more">
      <summary>Fittings, packing, parcel</summary>
      <fieldset class="lines">
        <legend>Of the plan</legend>
        <p class="row">
          {IN_KIT.map((thing) => (
            <label key={thing} class="tick">
              <input
                type="checkbox"
                checked={wanted.inKit.includes(thing)}
                onChange={(event) => {
                  const others = wanted.inKit.filter((t) => t !== thing);
                  fill({ inKit: event.currentTarget.checked ? [...others, thing] : others });
                }}
              />
              its {thing}
            </label>
          ))}
        </p>
      </fieldset>
      <Lines
        name="Fittings"
        about="What else goes into each kit; price and weight of one."
        add="Add a fitting"
        columns={THINGS}
        lines={wanted.fittings}
        put={(fittings) => { fill({ fittings }); }}
      />
      <Lines
        name="Packing"
        about="What each kit is packed with; price and weight of one."
        add="Add packing"
        columns={THINGS}
        lines={wanted.packing}
        put={(packing) => { fill({ packing }); }}
      />
      <Simples
        names={[["box", "Inside of the parcel’s box, as in 30x20x5cm"], ["maker", "Whose hands tie it"]]}
        wanted={wanted}
        fill={fill}
      />
    </details>
  );
}
