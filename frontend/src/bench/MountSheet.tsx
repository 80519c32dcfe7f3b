// What the piece hangs on, its cords, and what it holds.
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { ChangeHolds, ChangeMount, Cord, MountedCords, Outline } from "../api/types";
import { Icon } from "../parts/Icon";
import { Stepper } from "../parts/Stepper";
import { change, set } from "../state/bench";
import { system } from "../state/prefs";
import { diameter, stepped } from "../units";
import { plain, words } from "./plan";
import { opened } from "./state";
import { ValueField } from "./ValueField";

const MOUNTS: Record<string, { name: string; mount: (cord: string) => ChangeMount["mount"] }> = {
  ring: { name: "A ring", mount: () => ({ ring: { inside: "50 mm", wire: "6 mm" } }) },
  rod: { name: "A rod", mount: () => ({ rod: { length: "40 cm", thick: "12 mm" } }) },
  cord: { name: "A cord", mount: (cord) => ({ cord: { cord } }) },
  nothing: { name: "Nothing: it begins with its own cords", mount: () => ({ nothing: {} }) },
};

const HOLDS: Record<string, { name: string; holds: ChangeHolds["holds"] }> = {
  none: { name: "Nothing", holds: null },
  pot: {
    name: "A pot",
    holds: { pot: { rim: "16 cm", base: "11 cm", height: "14 cm", weight: "900 g" } },
  },
  bowl: { name: "A bowl", holds: { bowl: { rim: "18 cm", height: "8 cm", weight: "700 g" } } },
  sphere: { name: "A ball", holds: { sphere: { across: "12 cm", weight: "400 g" } } },
  box: {
    name: "A box",
    holds: { box: { wide: "16 cm", deep: "12 cm", high: "10 cm", weight: "900 g" } },
  },
};

export function MountSheet({ outline }: { outline: Outline }): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => { heading.current?.focus(); }, []);
  const cord = outline.cords[0]?.name ?? "main";
  return (
    <section class="sheet" aria-label="Mount, cords and what it holds">
      <header>
        <button type="button" class="quiet" onClick={() => { opened.value = null; }}>
          <Icon sign="back" /> All sections
        </button>
        <h2 ref={heading} tabIndex={-1} class="title">Mount and cords</h2>
      </header>
      <h3>It hangs on</h3>
      <Pick
        label="It hangs on"
        value={outline.mount.kind}
        choices={Object.entries(MOUNTS).map(([key, { name }]) => [key, name])}
        choose={(key) => change({ do: "mount", mount: MOUNTS[key]?.mount(cord) ?? {} })}
      />
      <div class="values">
        {outline.mount.values.map((v) => <ValueField key={v.path} value={v} outline={outline} />)}
      </div>
      <h3>Cords on it</h3>
      {outline.mounted.map((m) => <Mounted key={m.path} mounted={m} outline={outline} />)}
      <h3>Kinds of cord</h3>
      {outline.cords.map((c) => <CordFields key={c.name} cord={c} />)}
      <h3>It holds</h3>
      <Pick
        label="It holds"
        value={outline.holds?.kind ?? "none"}
        choices={Object.entries(HOLDS).map(([key, { name }]) => [key, name])}
        choose={(key) => change({ do: "holds", holds: HOLDS[key]?.holds ?? null })}
      />
      <div class="values">
        {outline.holds?.values.map((v) => <ValueField key={v.path} value={v} outline={outline} />)}
      </div>
      {outline.hang.length > 0 && (
        <>
          <h3>Where it hangs</h3>
          <div class="values">
            {outline.hang.map((v) => <ValueField key={v.path} value={v} outline={outline} />)}
          </div>
        </>
      )}
    </section>
  );
}

interface PickProps {
  label: string;
  value: string;
  choices: [string, string][];
  choose: (key: string) => Promise<boolean>;
}

function Pick({ label, value, choices, choose }: PickProps): JSX.Element {
  return (
    <select
      class="wide"
      aria-label={label}
      value={value}
      onChange={(event) => {
        const box = event.currentTarget;
        void choose(box.value).then((done) => {
          if (!done) box.value = value;
        });
      }}
    >
      {choices.map(([key, name]) => <option key={key} value={key}>{name}</option>)}
    </select>
  );
}

function Mounted({ mounted, outline }: { mounted: MountedCords; outline: Outline }): JSX.Element {
  return (
    <div class="step-card">
      <div class="values">
        {mounted.values.map((v) => <ValueField key={v.path} value={v} outline={outline} />)}
      </div>
      {mounted.run.map((m) => <Mounted key={m.path} mounted={m} outline={outline} />)}
    </div>
  );
}

function CordFields({ cord }: { cord: Cord }): JSX.Element {
  const give = (key: string) => (text: string): Promise<boolean> => set(`${cord.path}.${key}`, text);
  const thicker = (by: 1 | -1): string | null => {
    const next = stepped(cord.diameter_mm, by, system.value === "inch" ? 0.25 : 0.5, system.value);
    return next >= 0.5 && next <= 100 ? diameter(next, system.value) : null;
  };
  const dot = (i: HTMLElement | null): void => i?.style.setProperty("background-color", cord.rgb);
  return (
    <div class="step-card">
      <div class="step-head"><h4><i class="dot" ref={dot} />{words(cord.name)}</h4></div>
      <div class="values">
        <Stepper
          label="Thickness"
          text={plain(cord.diameter) ? diameter(cord.diameter_mm, system.value) : cord.diameter}
          stepped={thicker}
          accept={give("diameter")}
        />
        <Stepper label="Fibre" text={cord.fibre} accept={give("fibre")} />
        <Stepper label="Build" text={cord.build} accept={give("build")} />
        <Stepper label="Colour" text={cord.colour} accept={give("colour")} />
      </div>
    </div>
  );
}
