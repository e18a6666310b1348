import type { EvaluationPhase, RoundState } from '../evaluation/phase';

export type RecordLine = {
  readonly seq: number;
  readonly evaluationId: string | null;
  readonly at: number;
  readonly actor: string;
  readonly kind: string;
  readonly detail: string;
};

/** A SHA-256 in hex; null where the line was written before such things were bound. */
export type Bound = string | null;

export type PromisedRound = {
  readonly occasion: 'scored' | 'second';
  state: RoundState;
  readonly terms: Bound;
  /** Whether a card of it was typed from paper. */
  typed: boolean;
  agreed: Bound;
  readonly locked: Set<string>;
  /** Published at the close, by seat. */
  readonly committed: Map<string, string>;
  readonly void: string[];
  /** One of these; more than one only where an early removal of words named several rounds in no order. Null before reveal, or where it was not bound. */
  snapshot: readonly string[] | null;
  scores: Bound;
  /** What came late, by its newest line; null without one. */
  late: { readonly late: Bound; lateWords: Bound } | null;
};

/** What stood when something happened that changes the question the engine is asked: how many of each, in their order. */
export type Moment = {
  readonly rounds: number;
  readonly batches: number;
  readonly decisions: number;
  readonly clearances: number;
};

/** What the record promises of one evaluation after all its lines. */
export type PromisedEvaluation = {
  readonly id: string;
  /** Whether the record tells of it from its beginning. */
  known: boolean;
  /** Whether its lines bind by hash from here on, and whether they did from its first. */
  bound: boolean;
  boundFromStart: boolean;
  readonly firstSeq: number;
  phase: EvaluationPhase;
  ownerSeat: Bound;
  readonly seats: Map<string, Bound>;
  readonly joins: Map<string, number>;
  readonly letIn: Map<string, number>;
  /** Sessions of the seat that had begun by then have ended. */
  readonly ended: { readonly seat: string; readonly at: number }[];
  readonly moved: { readonly seat: string; readonly at: number }[];
  readonly confirmed: Set<string>;
  readonly withdrawals: Bound[];
  /** Cards typed from paper. */
  readonly typed: Bound[];
  readonly wordsRemoved: Set<string>;
  readonly rounds: PromisedRound[];
  readonly batches: { state: 'open' | 'closed' | 'revealed'; readonly looks: Bound; answers: Bound }[];
  readonly clearances: Bound[];
  readonly addenda: Bound[];
  readonly decisions: { readonly decision: Bound; reason: Bound }[];
  notes: { readonly notes: Bound; noteWords: Bound } | null;
  homes: number;
  /** The lines of another server's record that it came with, bound by the line that tells of its import. */
  readonly imported: Bound[];
  readonly results: { readonly question: string; readonly result: string }[];
  readonly moments: Moment[];
  readonly faults: { readonly seq: number; readonly words: string }[];
};
