import type { Sheet } from '../sheet/sheet';
import type { Imported } from '../contract/evaluationFile';
import type { PuppyFace, Showing, SlotView, ViewerFace } from '../contract/evaluationView';
import type { Cell, Plan } from '../contract/plan';
import type { Purpose, SeatInput } from '../contract/setup';
import type { EvaluationPhase, RoundState } from './phase';

/** Everything about one evaluation that is no score: what rules and views are decided from. */
export type EvaluationFacts = {
  readonly id: string;
  readonly name: string;
  readonly litter: { readonly id: string; readonly name: string; readonly breed: string; readonly whelpedOn: string };
  readonly sheetId: string;
  readonly sheet: Sheet;
  readonly heldOn: string;
  readonly medium: 'table' | 'photographs';
  readonly callLink: string;
  readonly callNumber: string;
  readonly tableNote: string;
  readonly phase: EvaluationPhase;
  readonly order: readonly string[];
  readonly puppies: readonly PuppyFace[];
  readonly seats: readonly SeatFacts[];
  readonly slots: readonly SlotView[];
  readonly purposes: readonly Purpose[];
  readonly plan: Plan;
  /** Seats that confirmed the pick order as it is worded now. */
  readonly confirmedSeatIds: readonly string[];
  /** The newest round; null while preparing. */
  readonly round: RoundFacts | null;
  /** The rounds before it, oldest first. */
  readonly earlierRounds: readonly RoundFacts[];
  /** The batch of second looks that is open; null while none is. */
  readonly openBatchId: string | null;
  /** It came in a file from another server: nobody holds a seat of it here, and nothing of it is changed. Null for one made here. */
  readonly imported: Imported | null;
};

export type SeatFacts = SeatInput & {
  readonly id: string;
  readonly position: number;
  readonly owner: boolean;
  readonly organises: boolean;
  readonly reads: boolean;
  readonly paper: boolean;
  readonly joined: boolean;
  /** How many times this seat was issued to a device; more than once means reissued (BL9). 0 for the owner's own. */
  readonly issued: number;
  readonly lockedAt: number | null;
  readonly linkWaiting: boolean;
};

export type RoundFacts = {
  readonly id: string;
  readonly occasion: 'first' | 'second' | 'practice' | 'lesson';
  readonly medium: 'table' | 'photographs';
  readonly state: RoundState;
  readonly closedAt: number | null;
  readonly revealedAt: number | null;
  /** In table order. */
  readonly showings: readonly Showing[];
  readonly tableShowingId: string | null;
  /** What a second round asks about again; null in every other round, which asks about everything. */
  readonly cells: readonly Cell[] | null;
};

/** Who asks. A seat's rights are those of the seat; the owner may also hold a seat. */
export type Viewer = Pick<ViewerFace, 'owner' | 'seatId' | 'leads'>;
