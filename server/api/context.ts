import type { Device } from '#db/queries/findDevice';
import type { Runtime } from '../runtime';

/** What a procedure knows of its request. */
export type Context = {
  readonly runtime: Runtime;
  readonly device: Device | null;
  /** For the log beside an unknown error, and for the person who reports it. */
  readonly requestId: string;
  /** Gives the browser its session; an empty secret ends it. */
  setSession(secret: string): void;
  /** Writes one line for the people who run the server: never a score, never a secret. */
  log(line: string): void;
};
