import { z } from 'zod';

/** An evaluation moves forward only. */
export const evaluationPhaseSchema = z.enum(['preparing', 'scoring', 'deciding', 'sealed']);
export type EvaluationPhase = z.infer<typeof evaluationPhaseSchema>;

/** A round, or a batch of second looks. Reopen is closed → open; revealed is for good (BL7). */
export const roundStateSchema = z.enum(['open', 'closed', 'revealed']);
export type RoundState = z.infer<typeof roundStateSchema>;

/** A seat's place in one round. */
export const seatStateSchema = z.enum(['invited', 'joined', 'locked']);
export type SeatState = z.infer<typeof seatStateSchema>;
