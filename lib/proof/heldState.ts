import type { EvaluationPhase, RoundState } from '../evaluation/phase';

/** What the tables of a data file hold of one evaluation, reduced to hashes and states: no score is in it. */
export type HeldEvaluation = {
  readonly id: string;
  readonly phase: EvaluationPhase;
  readonly rounds: readonly HeldRound[];
  readonly seats: readonly HeldSeat[];
  /** Answers of seats to the pick order. */
  readonly confirmed: readonly string[];
  readonly withdrawals: readonly string[];
  readonly typed: readonly string[];
  readonly wordsRemoved: readonly string[];
  readonly batches: readonly {
    readonly id: string;
    readonly state: RoundState;
    readonly looks: string;
    readonly answers: string;
  }[];
  readonly clearances: readonly string[];
  readonly addenda: readonly string[];
  readonly decisions: readonly { readonly id: string; readonly decision: string; readonly reason: string }[];
  readonly notes: { readonly notes: string; readonly noteWords: string };
  readonly homes: number;
  /** Of an imported evaluation, its mark and the lines it came with: one or none. */
  readonly imported: readonly string[];
};

export type HeldRound = {
  readonly id: string;
  readonly occasion: 'first' | 'second' | 'practice' | 'lesson';
  readonly state: RoundState;
  readonly terms: string;
  readonly agreed: string;
  readonly locked: readonly string[];
  readonly commitments: readonly { readonly seat: string; readonly hash: string; readonly void: boolean }[];
  readonly snapshot: { readonly snapshot: string; readonly scores: string } | null;
  readonly late: { readonly count: number; readonly late: string; readonly lateWords: string };
};

export type HeldSeat = {
  readonly id: string;
  readonly owner: boolean;
  readonly seat: string;
  /** How many times it was issued to a device. */
  readonly issued: number;
  readonly letIn: number;
  readonly sessions: readonly { readonly begun: number; readonly ended: number | null }[];
  /** Whether entries of it came in at this moment: asked only for what the record says. */
  readonly enteredAt: (at: number) => boolean;
};
