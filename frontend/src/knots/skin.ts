// What a cord of a knot looks like: its colour, its lay, and the mark that tells it apart without
// colour, the same as in the figures (cordwright.draw.ink).
import { CanvasTexture, MeshStandardMaterial, RepeatWrapping, SRGBColorSpace } from "three";
import type { MovingCord } from "../api/types";

const WIDE = 192;
const PER_D = 96;

interface Pattern {
  /** Length after which it repeats, in diameters. */
  length: number;
  paint: (on: CanvasRenderingContext2D, high: number) => void;
}

/** Stripes along the cord, on so many of its sides. */
const stripes = (wide: number, from: number, to: number): Pattern["paint"] => (on, high) => {
  for (let k = 0; k < 4; k++) {
    const thick = (wide / Math.PI) * WIDE;
    on.fillRect(((k + 0.5) / 4) * WIDE - thick / 2, from * high, thick, (to - from) * high);
  }
};

const PATTERNS: Record<string, Pattern> = {
  plain: { length: 1, paint: () => undefined },
  line: { length: 1, paint: stripes(0.2, 0, 1) },
  ticks: { length: 0.66, paint: (on, high) => { on.fillRect(0, 0, WIDE, (0.16 / 0.66) * high); } },
  bands: { length: 1.6, paint: (on, high) => { on.fillRect(0, 0, WIDE, 0.5 * high); } },
  dashes: { length: 1.4, paint: stripes(0.22, 0, 0.9 / 1.4) },
  dots: {
    length: 1.6,
    paint: (on, high) => {
      for (let k = 0; k < 6; k++) {
        on.beginPath();
        on.ellipse(
          ((k + 0.5) / 6) * WIDE, (k % 2 ? 0.75 : 0.25) * high,
          (0.18 / Math.PI) * WIDE, (0.18 / 1.6) * high, 0, 0, 2 * Math.PI,
        );
        on.fill();
      }
    },
  },
};

const kept = new Map<string, CanvasTexture>();

export function patternOf(cord: MovingCord): number {
  return (PATTERNS[cord.mark]?.length ?? 1) * cord.diameter;
}

export function skin(cord: MovingCord): MeshStandardMaterial {
  return new MeshStandardMaterial({
    map: texture(cord), roughness: cord.fixed ? 0.55 : 0.88, metalness: 0,
  });
}

function texture(cord: MovingCord): CanvasTexture {
  const key = `${cord.fill} ${cord.mark} ${cord.mark_colour} ${cord.fixed}`;
  let found = kept.get(key);
  if (!found) {
    found = made(cord);
    kept.set(key, found);
  }
  return found;
}

function made(cord: MovingCord): CanvasTexture {
  const pattern = PATTERNS[cord.mark] ?? { length: 1, paint: () => undefined };
  const canvas = document.createElement("canvas");
  canvas.width = WIDE;
  canvas.height = Math.round(pattern.length * PER_D);
  const on = canvas.getContext("2d");
  if (on) {
    on.fillStyle = cord.fill;
    on.fillRect(0, 0, canvas.width, canvas.height);
    if (!cord.fixed) laid(on, cord.edge, canvas.height, pattern.length);
    on.fillStyle = cord.mark_colour;
    pattern.paint(on, canvas.height);
  }
  const found = new CanvasTexture(canvas);
  found.colorSpace = SRGBColorSpace;
  found.wrapS = found.wrapT = RepeatWrapping;
  found.anisotropy = 4;
  return found;
}

/** The furrows between the strands that the cord is laid of. */
function laid(on: CanvasRenderingContext2D, edge: string, high: number, length: number): void {
  const turns = Math.max(1, Math.round(length / 0.5));
  on.strokeStyle = edge;
  on.globalAlpha = 0.16;
  on.lineWidth = 7;
  for (let k = -3; k < turns + 3; k++) {
    on.beginPath();
    on.moveTo(0, (k / turns) * high);
    on.lineTo(WIDE, ((k + 2) / turns) * high);
    on.stroke();
  }
  on.globalAlpha = 1;
}
