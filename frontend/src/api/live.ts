// The live channel of one piece. It opens itself again when the server comes back.
import { knock, locked } from "./http";
import type { ClientMessage, ServerMessage } from "./types";

export type Link = "opening" | "open" | "lost";

export interface Live {
  send(message: ClientMessage): boolean;
  close(): void;
}

const WAITS = [250, 500, 1000, 2000, 4000];

export function openLive(
  piece: string,
  heard: (message: ServerMessage) => void,
  changed: (link: Link) => void,
): Live {
  let socket: WebSocket | null = null;
  let tries = 0;
  let timer = 0;
  let closed = false;

  const again = (): void => {
    if (closed) return;
    changed("lost");
    void knock(); // a server that was started anew refuses this page; that is told otherwise
    timer = window.setTimeout(connect, WAITS[Math.min(tries++, WAITS.length - 1)]);
  };

  const connect = (): void => {
    const scheme = location.protocol === "https:" ? "wss" : "ws";
    const address = `${scheme}://${location.host}/api/live?piece=${encodeURIComponent(piece)}`;
    const made = new WebSocket(address);
    socket = made;
    made.onopen = () => {
      tries = 0;
      locked.value = false;
      changed("open");
    };
    made.onmessage = (event: MessageEvent<string>) => {
      heard(JSON.parse(event.data) as ServerMessage);
    };
    made.onclose = () => {
      if (socket === made) again();
    };
  };

  const soon = (): void => {
    // A machine that wakes up, or a tab that is shown again, need not wait for the next try.
    if (!closed && socket?.readyState === WebSocket.CLOSED) {
      window.clearTimeout(timer);
      connect();
    }
  };

  window.addEventListener("online", soon);
  document.addEventListener("visibilitychange", soon);
  changed("opening");
  connect();
  return {
    send(message) {
      if (socket?.readyState !== WebSocket.OPEN) return false;
      socket.send(JSON.stringify(message));
      return true;
    },
    close() {
      closed = true;
      window.clearTimeout(timer);
      window.removeEventListener("online", soon);
      document.removeEventListener("visibilitychange", soon);
      socket?.close();
    },
  };
}
