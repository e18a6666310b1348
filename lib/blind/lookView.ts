import type { LookView } from '../contract/lookView';

export type LookFacts = {
  readonly id: string;
  readonly slotId: string;
  readonly state: 'open' | 'closed' | 'revealed';
  readonly firstPuppyId: string;
  readonly secondPuppyId: string;
  readonly firstOnLeft: boolean;
  readonly repeat: boolean;
};

type Told = {
  readonly mayAnswer: boolean;
  readonly own: LookView['own'];
  /** Read only for revealed looks; ignored while one is open (BL8). */
  readonly answers: NonNullable<LookView['answers']>;
};

/** One second look for one viewer: its own answer always, the others' only once it is revealed. */
export function lookView(look: LookFacts, told: Told): LookView {
  return {
    id: look.id,
    slotId: look.slotId,
    state: look.state,
    firstPuppyId: look.firstPuppyId,
    secondPuppyId: look.secondPuppyId,
    leftPuppyId: look.firstOnLeft ? look.firstPuppyId : look.secondPuppyId,
    repeat: look.repeat,
    mayAnswer: told.mayAnswer && look.state === 'open',
    own: told.own && { choice: told.own.choice, criterion: told.own.criterion },
    answers: look.state === 'revealed' ? told.answers.map(({ seat, choice, criterion }) => ({ seat, choice, criterion })) : null,
  };
}
