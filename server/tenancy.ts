import type { Runtime } from './runtime';

/** Which data a session belongs to: always the same in the main server, one copy per visitor in the demo. */
export type Tenancy = {
  /** `session` is the session cookie's value, if any. */
  runtimeFor(session: string | undefined): Runtime;
  close(): Promise<void>;
};
