import type { Db } from '#db/open';
import type { DemoRole, DemoView } from '#lib/contract/demoView';
import type { Backups } from './backup/backups';
import type { Hub } from './live/hub';
import type { Random } from './random';
import type { Reconciler } from './work/reconciler';

/** `id` of the copy to be: the same call again finds the copy it made. `address` counts copies. */
export type DemoVisit = { readonly id: string; readonly address: string };

export type Demo = {
  /** A fresh copy for one visitor who takes this seat; answers the visitor's session secret. An earlier copy of the same visitor goes, and of others one that nobody has touched, where room is wanted. Throws busy, or too-many where this address has all that one may have. */
  enter(role: DemoRole, visit: DemoVisit): Promise<string>;
  /** Null for a visitor who has none yet. */
  readonly copy: DemoCopy | null;
};

export type DemoCopy = {
  view(): DemoView;
  /** The secret of the visitor's session in one of the copy's two evaluations: a seat belongs to one. Throws not-found. */
  sessionIn(evaluationId: string): string;
  /** Locks the visitor's card as it is, lets the scripted seats finish and lock, and reveals. Throws wrong-phase once revealed. */
  playToReveal(): Promise<void>;
};

/** Everything with a life of its own that a request may need; built once in the composition root, or by a test. */
export type Runtime = {
  readonly db: Db;
  readonly clock: { now(): number };
  readonly random: Random;
  readonly hub: Hub;
  readonly reconciler: Reconciler;
  readonly backups: Backups;
  /** In the demo server only. */
  readonly demo: Demo | null;
};

/** Which data a session belongs to: always the same in the main server, one copy per visitor in the demo. */
export type Tenancy = {
  /** `session` is the session cookie's value, if any. */
  runtimeFor(session: string | undefined): Runtime;
  close(): Promise<void>;
};
