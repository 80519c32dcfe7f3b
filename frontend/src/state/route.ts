// Which of the rooms is open, and which piece: kept in the address after the #.
import { signal } from "@preact/signals";

export type Room = "piece" | "knots" | "lesson" | "supply";

export interface Route {
  room: Room;
  piece: string | null;
  /** What is open in the room, such as a knot's name. */
  item: string | null;
}

export const ROOMS: readonly Room[] = ["piece", "knots", "lesson", "supply"];

export function read(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [room, item] = path.split("/");
  const found = ROOMS.find((r) => r === room) ?? "piece";
  const piece = new URLSearchParams(query).get("piece");
  return { room: found, piece, item: item ? decodeURIComponent(item) : null };
}

export function address(to: Partial<Route>): string {
  const { room, piece, item } = { ...route.peek(), item: null, ...to };
  const query = piece ? `?piece=${encodeURIComponent(piece)}` : "";
  return `#/${room}${item ? `/${encodeURIComponent(item)}` : ""}${query}`;
}

export const route = signal<Route>(read(location.hash));

window.addEventListener("hashchange", () => {
  route.value = read(location.hash);
});

export function go(to: Partial<Route>): void {
  location.hash = address(to);
}
