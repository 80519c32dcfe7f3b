// Asking the server, and saying plainly when it says no or is not there.
import { signal } from "@preact/signals";
import type { Conflict, Document, Trouble } from "./types";

/** The server refused; `what` and `remedy` are for the maker. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly trouble: Trouble,
  ) {
    super(trouble.what);
  }
}

/** The piece was changed elsewhere meanwhile. */
export class Behind extends Error {
  constructor(readonly document: Document) {
    super("changed elsewhere");
  }
}

/** Nobody answered. */
export class Offline extends Error {}

/** Whether the workbench was started anew since, and no longer knows this page. */
export const locked = signal(false);

async function asked(method: string, path: string, body?: unknown): Promise<Response> {
  const init: RequestInit = { method, credentials: "same-origin", cache: "no-store" };
  if (body !== undefined) {
    init.body = JSON.stringify(body);
    init.headers = { "Content-Type": "application/json" };
  }
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch {
    throw new Offline("The workbench does not answer.");
  }
  locked.value = response.status === 401;
  if (response.ok) return response;
  throw await refusal(response);
}

/** Find out whether a server that refuses the live channel is there and knows this page. */
export async function knock(): Promise<void> {
  try {
    await asked("GET", "/icon.svg");
  } catch {
    // nobody there, or a refusal, which `locked` tells
  }
}

async function refusal(response: Response): Promise<Error> {
  if (response.status === 401) {
    const what = "This page is of an earlier start of the workbench.";
    return new Refused(401, { what, remedy: "Go on in the page that the new start opened.", problems: [] });
  }
  let said: unknown = null;
  try {
    said = await response.json();
  } catch {
    // An answer without words; the status has to do.
  }
  if (response.status === 409 && said && typeof said === "object" && "document" in said) {
    return new Behind((said as Conflict).document);
  }
  if (said && typeof said === "object" && "what" in said) {
    return new Refused(response.status, said as Trouble);
  }
  return new Refused(response.status, {
    what: `The workbench answered ${response.status}.`,
    remedy: response.status === 403
      ? "Open it again from the address that it gave when it was started."
      : "Try again; if it happens again, start the workbench anew.",
    problems: [],
  });
}

export async function get<T>(path: string): Promise<T> {
  return (await (await asked("GET", path)).json()) as T;
}

export async function send<T>(method: "POST" | "PUT", path: string, body: unknown): Promise<T> {
  return (await (await asked(method, path, body)).json()) as T;
}

export async function remove(path: string): Promise<void> {
  await asked("DELETE", path);
}

export async function bytes(path: string): Promise<ArrayBuffer> {
  return (await asked("GET", path)).arrayBuffer();
}

export async function text(path: string): Promise<string> {
  return (await asked("GET", path)).text();
}

/** The door of a piece. */
export function door(name: string, rest = ""): string {
  return `/api/pieces/${encodeURIComponent(name)}${rest}`;
}
