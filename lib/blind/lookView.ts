import type { LookView } from '../contract/lookView';
import { firstOnLeftFor } from '../evaluation/decideLook';

export type LookFacts = {
  readonly id: string;
  readonly batchId: string;
  readonly slotId: string;
  readonly medium: 'table' | 'photographs';
  readonly state: 'open' | 'closed' | 'revealed';
  readonly firstPuppyId: string;
  readonly secondPuppyId: string;
  readonly firstOnLeft: boolean;
  readonly repeat: boolean;
};

type Told = {
  /** The viewer's place at the panel; 0 for a viewer without a seat. */
  readonly position: number;
  readonly mayAnswer: boolean;
  readonly own: LookView['own'];
  readonly anonymous: boolean;
  /** Read only for revealed looks; ignored while one is open (BL8). */
  readonly answers: readonly {
    readonly seat: string;
    readonly choice: 'first' | 'second' | 'tie';
    readonly criterion: string | null;
  }[];
};

/** One second look for one viewer: its own answer always, the others' only once its batch is revealed. */
export function lookView(look: LookFacts, told: Told): LookView {
  return {
    id: look.id,
    batchId: look.batchId,
    slotId: look.slotId,
    medium: look.medium,
    state: look.state,
    firstPuppyId: look.firstPuppyId,
    secondPuppyId: look.secondPuppyId,
    leftPuppyId: firstOnLeftFor(look, told.position) ? look.firstPuppyId : look.secondPuppyId,
    repeat: look.repeat,
    mayAnswer: told.mayAnswer && look.state === 'open',
    own: told.own && { choice: told.own.choice, criterion: told.own.criterion },
    answers: look.state === 'revealed' ? answersTold(told) : null,
  };
}

/** Without seats the answers come in an order that says nothing of who gave them. */
function answersTold({ answers, anonymous }: Told): LookView['answers'] {
  const told = answers.map(({ seat, choice, criterion }) => ({ seat: anonymous ? null : seat, choice, criterion }));
  return anonymous
    ? told.toSorted((one, other) =>
        `${one.choice} ${one.criterion}`.localeCompare(`${other.choice} ${other.criterion}`),
      )
    : told;
}
