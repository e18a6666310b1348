import type { Snapshot } from '../contract/snapshot';

type Circumstances = {
  readonly anonymous: boolean;
  readonly second: Snapshot | null;
  /** When the data came back from a backup. */
  readonly restores: readonly number[];
};

/**
 * BL5: what the scoring seats were not shown, and what they were, from the facts of each round. "Blind" without saying to what
 * says too much.
 */
export function blindTo(first: Snapshot, { anonymous, second, restores }: Circumstances): string[] {
  return [
    `Until ${second ? 'a round’s own' : 'the'} reveal no seat, the owner’s included, was shown another seat’s scores, checks, notes or choices${second ? ' of that round' : ''}, nor anything worked out from them${anyTyped(first, second) ? ', but for what the owner typed from paper' : ''}.`,
    ...typedLines(first, { second, anonymous }),
    second
      ? 'In the first round scoring seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh. In the second they were not shown parents or weights of the puppies; how criteria weigh, and the scores and the result of the first round, they had been shown by then.'
      : 'Scoring seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh.',
    ...identityLines(first, second),
    ...(anonymous
      ? [
          'The panel is anonymous: this board counts answers and names no seat. With few seats, who said what can often be guessed.',
        ]
      : []),
    ...(second
      ? [
          `In ${second.cells?.length ?? 0} cells the scores of a second round stand where they were given: blind again, but after the talk. Agreement there is agreement after discussion.`,
        ]
      : []),
    ...reissueLines(first, second),
    ...(second
      ? [...openLines(first, 'the first round'), ...openLines(second, 'the second round')]
      : openLines(first, 'the round')),
    ...restores.map(
      (at) =>
        `Restored from a backup on ${minuteOf(at)}, ${sideOf(at, first, second)}: what was entered between that backup and then is missing here.`,
    ),
    'Scores are not hidden from whoever can read the server’s files.',
  ];
}

function identityLines(first: Snapshot, second: Snapshot | null): string[] {
  if (!first.coded) return ['Seats did see names, sex, collars and marks, and could hear what was said at the table.'];
  const hidden =
    'saw puppies by a code of their own: no name, collar or mark of the set-up. What a picture itself shows was not hidden.';
  return [
    `${second ? 'In the first round seats' : 'Seats'} that neither lead nor organise ${hidden}`,
    ...(second ? ['In the second round every seat saw which puppy was which.'] : []),
  ];
}

const labels = (seats: Snapshot['seats']): string => seats.map((seat) => seat.label).join(', ');
const unknownHolder = 'Who held the first device is not known to the server.';

/** What is counted goes on from round to round: the second names those that came to it. */
function reissueLines(first: Snapshot, second: Snapshot | null): string[] {
  const before = first.seats.filter((seat) => seat.reissued);
  const between = second
    ? second.seats.filter((seat) => seat.reissued && !before.some((one) => one.id === seat.id))
    : [];
  return [
    ...(before.length > 0 ? [`Reissued to another device: ${labels(before)}. ${unknownHolder}`] : []),
    ...(between.length > 0
      ? [`Reissued to another device after the first reveal: ${labels(between)}. ${unknownHolder}`]
      : []),
  ];
}

const typedSeats = (snapshot: Snapshot | null) => (snapshot?.seats ?? []).filter((seat) => seat.typed);
const anyTyped = (first: Snapshot, second: Snapshot | null) => typedSeats(first).length + typedSeats(second).length > 0;

/** Whose card came by the owner's hand, who saw it then; an anonymous panel is told how many. */
function typedLines(first: Snapshot, { second, anonymous }: Pick<Circumstances, 'second' | 'anonymous'>): string[] {
  const lineOf = (snapshot: Snapshot, when: string): string[] => {
    const seats = typedSeats(snapshot);
    if (seats.length === 0) return [];
    const [one, count] = [seats.length === 1, seats.length];
    const cards = anonymous
      ? one
        ? 'one card'
        : `${count} cards`
      : `the ${one ? 'card' : 'cards'} of ${labels(seats)}`;
    const words = `${when}${cards} ${one ? 'was' : 'were'} typed from paper by the owner, who saw ${one ? 'it' : 'them'} then and could no longer score.`;
    return [words.slice(0, 1).toUpperCase() + words.slice(1)];
  };
  return second
    ? [...lineOf(first, 'in the first round '), ...lineOf(second, 'in the second round ')]
    : lineOf(first, '');
}

function openLines({ seats }: Snapshot, round: string): string[] {
  const open = seats.filter((seat) => seat.kind !== 'none' && !seat.locked);
  return open.length > 0 ? [`Not locked when ${round} closed: ${labels(open)}. Their scores stand as they were.`] : [];
}

function sideOf(at: number, first: Snapshot, second: Snapshot | null): string {
  if (!second) return `${at < first.revealedAt ? 'before' : 'after'} the reveal`;
  if (at < first.revealedAt) return 'before the first reveal';
  return at < second.revealedAt ? 'between the two reveals' : 'after the second reveal';
}

/** The same minute for everybody who reads it. */
const minuteOf = (at: number) => `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
