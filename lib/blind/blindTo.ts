import type { Snapshot } from '../contract/snapshot';

type Circumstances = {
  readonly anonymous: boolean;
  readonly second: Snapshot | null;
  /** When the data came back from a backup. */
  readonly restores: readonly number[];
};

/**
 * BL5: what the scoring seats of this round were not shown, and what they were. "Blind" without saying to what says too much.
 */
export function blindTo(snapshot: Snapshot, { anonymous, second, restores }: Circumstances): string[] {
  const notLocked = snapshot.seats.filter((seat) => seat.kind !== 'none' && !seat.locked).map((seat) => seat.label);
  const reissued = snapshot.seats.filter((seat) => seat.reissued).map((seat) => seat.label);
  return [
    'Until the reveal no seat, the owner’s included, was shown another seat’s scores, checks, notes or choices, nor anything worked out from them.',
    'Seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh.',
    snapshot.coded
      ? 'Seats that neither lead nor organise saw puppies by a code of their own: no name, collar or mark of the set-up. What a picture itself shows was not hidden.'
      : 'Seats did see names, sex, collars and marks, and could hear what was said at the table.',
    ...(anonymous ? ['The panel is anonymous: this board counts answers and names no seat. With few seats, who said what can often be guessed.'] : []),
    ...(second ? [`In ${second.cells?.length ?? 0} cells the scores of a second round stand where they were given: blind again, but after the talk. Agreement there is agreement after discussion.`] : []),
    ...(reissued.length > 0 ? [`Reissued to another device: ${reissued.join(', ')}. Who held the first device is not known to the server.`] : []),
    ...(notLocked.length > 0 ? [`Not locked when the round closed: ${notLocked.join(', ')}. Their scores stand as they were.`] : []),
    ...restores.map((at) => `Restored from a backup on ${minuteOf(at)}, ${at < snapshot.revealedAt ? 'before' : 'after'} the reveal: what was entered between that backup and then is missing here.`),
    'Scores are not hidden from whoever can read the server’s files.',
  ];
}

/** The same minute for everybody who reads it. */
const minuteOf = (at: number) => `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
