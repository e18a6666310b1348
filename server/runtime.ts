import type { Db } from '#db/open';
import type { Hub } from './live/hub';
import type { Random } from './random';
import type { Reconciler } from './work/reconciler';

export type Demo = {
  /** A fresh copy of the demo for one visitor; answers the visitor's session secret. */
  enter(): Promise<string>;
  /** Lets the scripted seats finish and lock, and reveals. */
  playToReveal(evaluationId: string): Promise<void>;
};

/** Everything with a life of its own that a request may need; built once in the composition root, or by a test. */
export type Runtime = {
  readonly db: Db;
  readonly clock: { now(): number };
  readonly random: Random;
  readonly hub: Hub;
  readonly reconciler: Reconciler;
  /** In the demo server only: taking a seat, and bringing the open evaluation to its reveal. */
  readonly demo: Demo | null;
};
