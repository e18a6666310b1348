import type { HeldEvaluation, HeldRound, HeldSeat } from './heldState';
import type { Bound, PromisedEvaluation, PromisedRound } from './promises';

/** What is wrong and where, in words without a score. */
export type ProofFault = {
  readonly what:
    | 'record'
    | 'evaluation'
    | 'round'
    | 'lock'
    | 'commitment'
    | 'snapshot'
    | 'terms'
    | 'late'
    | 'seat'
    | 'removal'
    | 'withdrawal'
    | 'paper'
    | 'look'
    | 'clearance'
    | 'addendum'
    | 'decision'
    | 'note'
    | 'home';
  readonly id: string;
  readonly words: string;
};

/** `unbound` counts what stands before the record bound such things by hash: it can be neither shown nor refuted. */
export type Proof = { readonly faults: readonly ProofFault[]; readonly unbound: number };

/** Holds the tables to the record and the record to the tables: whatever one side has and the other has not is a fault. */
export function proofOf(promised: PromisedEvaluation, held: HeldEvaluation): Proof {
  const found: Found = {
    faults: promised.faults.map(({ seq, words }) => ({ what: 'record', id: String(seq), words })),
    unbound: 0,
  };
  if (promised.phase !== held.phase)
    found.faults.push({ what: 'evaluation', id: held.id, words: 'this evaluation is not where the record says it is' });
  compareRounds(found, promised, held);
  compareSeats(found, promised, held);
  const lists: readonly [ProofFault['what'], readonly Bound[], readonly string[], string][] = [
    ['withdrawal', promised.withdrawals, held.withdrawals, 'withdrawals'],
    ['paper', promised.typed, held.typed, 'cards typed from paper'],
    ['clearance', promised.clearances, held.clearances, 'answers to holds'],
    ['addendum', promised.addenda, held.addenda, 'addenda'],
    ['decision', promised.decisions.map((one) => one.decision), held.decisions.map((one) => one.decision), 'decisions'],
    [
      'decision',
      promised.decisions.map((one) => one.reason),
      held.decisions.map((one) => one.reason),
      'reasons of the decisions',
    ],
    ['look', promised.batches.map((one) => one.looks), held.batches.map((one) => one.looks), 'second looks'],
    ['record', promised.imported, held.imported, 'lines that came with an import'],
  ];
  for (const [what, said, there, words] of lists)
    compareLists(found, { what, id: held.id, words: `the ${words} are not those in the record` }, { said, there });
  compareLooks(found, promised, held);
  if (promised.notes) {
    const { notes, noteWords } = promised.notes;
    compareOne(found, { what: 'note', id: held.id, words: 'the notes of the talk are not those that were sealed' }, [
      notes,
      held.notes.notes,
    ]);
    compareOne(found, { what: 'note', id: held.id, words: 'the words of the talk are not those that were sealed' }, [
      noteWords,
      held.notes.noteWords,
    ]);
  }
  if (promised.homes !== held.homes)
    found.faults.push({ what: 'home', id: held.id, words: 'the links of homes are not those in the record' });
  return found;
}

type Found = { readonly faults: ProofFault[]; unbound: number };

function compareOne(found: Found, fault: ProofFault, [said, there]: readonly [Bound, string]): void {
  if (said === null) found.unbound += 1;
  else if (said !== there) found.faults.push(fault);
}

function compareLists(
  found: Found,
  fault: ProofFault,
  { said, there }: { readonly said: readonly Bound[]; readonly there: readonly string[] },
): void {
  found.unbound += said.filter((one) => one === null).length;
  const same = said.length === there.length && said.every((one, at) => one === null || one === there[at]);
  if (!same) found.faults.push(fault);
}

function sameSet(one: Iterable<string>, other: Iterable<string>): boolean {
  const [left, right] = [[...one].toSorted(), [...other].toSorted()];
  return left.length === right.length && left.every((value, at) => value === right[at]);
}

function compareRounds(found: Found, promised: PromisedEvaluation, held: HeldEvaluation): void {
  if (promised.rounds.length !== held.rounds.length)
    found.faults.push({
      what: 'round',
      id: held.id,
      words: 'the rounds of this evaluation are not those in the record',
    });
  for (const [at, round] of held.rounds.entries()) {
    const said = promised.rounds[at];
    if (!said) continue;
    const occasion = round.occasion === 'second' ? 'second' : 'scored';
    if (said.state !== round.state || said.occasion !== occasion)
      found.faults.push({ what: 'round', id: round.id, words: 'this round is not in the state that the record says' });
    compareOne(
      found,
      {
        what: 'terms',
        id: round.id,
        words: 'the sheet, weights, plan, pick order or showings are not those the round was opened with',
      },
      [said.terms, round.terms],
    );
    compareOne(
      found,
      {
        what: 'terms',
        id: round.id,
        words: 'who takes a place, or who agreed to the pick order, is not what it was when the round was opened',
      },
      [said.agreed, round.agreed],
    );
    if (!sameSet(said.locked, round.locked))
      found.faults.push({ what: 'lock', id: round.id, words: 'the locks of this round are not those in the record' });
    compareCommitments(found, said, round);
    compareRevealed(found, said, round);
  }
}

/** Standing and void ones apart: a commitment may be void only because its round was opened again. */
function compareCommitments(found: Found, said: PromisedRound, round: HeldRound): void {
  const fault = (words: string) => found.faults.push({ what: 'commitment', id: round.id, words });
  const standing = round.commitments.filter((one) => !one.void);
  const published = [...said.committed].filter(([, hash]) => hash !== '').map(([seat, hash]) => `${seat} ${hash}`);
  const none = round.commitments.length === 0 && published.length === 0 && said.void.length === 0;
  if (none && said.terms === null) {
    // Commitments are younger than the record.
    if (said.locked.size > 0 || said.state !== 'open') found.unbound += 1;
    return;
  }
  if (
    !sameSet(
      round.commitments.filter((one) => one.void).map((one) => one.hash),
      said.void.filter((hash) => hash !== ''),
    )
  )
    fault('the void commitments are not those of a reopened round');
  if (said.state === 'open') {
    if (
      !sameSet(
        standing.map((one) => one.seat),
        said.locked,
      )
    )
      fault('a locked seat has no commitment, or a commitment no lock');
  } else if (
    !sameSet(
      standing.map(({ seat, hash }) => `${seat} ${hash}`),
      published,
    )
  )
    fault('the commitments of this round are not those in the record');
}

function compareRevealed(found: Found, said: PromisedRound, round: HeldRound): void {
  if (said.state !== 'revealed') {
    if (round.snapshot)
      found.faults.push({ what: 'snapshot', id: round.id, words: 'this round has a snapshot and is not revealed' });
    return;
  }
  if (!round.snapshot)
    found.faults.push({ what: 'snapshot', id: round.id, words: 'this round is revealed and has no snapshot' });
  else {
    if (said.snapshot === null) found.unbound += 1;
    else if (!said.snapshot.includes(round.snapshot.snapshot))
      found.faults.push({ what: 'snapshot', id: round.id, words: 'this snapshot is not the one in the record' });
    compareOne(
      found,
      { what: 'snapshot', id: round.id, words: 'what no removal of words may change in this snapshot has changed' },
      [said.scores, round.snapshot.scores],
    );
  }
  if (said.late === null && said.scores === null) found.unbound += round.late.count;
  else if (said.late === null ? round.late.count > 0 : said.late.late !== null && said.late.late !== round.late.late) {
    found.faults.push({ what: 'late', id: round.id, words: 'what came late is not what the record says' });
  } else if (said.late)
    compareOne(found, { what: 'late', id: round.id, words: 'the words that came late are not those in the record' }, [
      said.late.lateWords,
      round.late.lateWords,
    ]);
}

function compareSeats(found: Found, promised: PromisedEvaluation, held: HeldEvaluation): void {
  const invited = held.seats.filter((seat) => !seat.owner);
  if (
    !sameSet(
      invited.map((seat) => seat.id),
      promised.seats.keys(),
    )
  )
    found.faults.push({ what: 'seat', id: held.id, words: 'the seats are not those in the record' });
  for (const seat of held.seats) {
    const said = seat.owner ? promised.ownerSeat : (promised.seats.get(seat.id) ?? null);
    compareOne(
      found,
      { what: 'seat', id: seat.id, words: 'the kind or the rights of this seat are not those in the record' },
      [said, seat.seat],
    );
    compareSessions(found, promised, seat);
  }
  if (!sameSet(promised.wordsRemoved, held.wordsRemoved))
    found.faults.push({
      what: 'removal',
      id: held.id,
      words: 'the seats whose words were removed are not those in the record',
    });
  if (!sameSet(promised.confirmed, held.confirmed))
    found.faults.push({
      what: 'terms',
      id: held.id,
      words: 'who agreed to the pick order is not what the record says',
    });
}

function compareSessions(
  found: Found,
  { joins, letIn, ended, moved, boundFromStart }: PromisedEvaluation,
  seat: HeldSeat,
): void {
  const fault = (words: string) => found.faults.push({ what: 'seat', id: seat.id, words });
  if (boundFromStart && !seat.owner) {
    if (seat.issued < (joins.get(seat.id) ?? 0)) fault('this seat was issued more often than its devices say');
    if (seat.letIn !== (letIn.get(seat.id) ?? 0)) fault('the further devices of this seat are not those in the record');
  }
  const lives = ended.some(
    (one) => one.seat === seat.id && seat.sessions.some(({ begun, ended: at }) => begun < one.at && at === null),
  );
  if (lives) fault('a session of this seat that was ended is not');
  if (moved.some((one) => one.seat === seat.id && !seat.enteredAt(one.at)))
    fault('cards of this seat that changed places did not');
}

function compareLooks(found: Found, promised: PromisedEvaluation, held: HeldEvaluation): void {
  for (const [at, { id, state, answers }] of held.batches.entries()) {
    const said = promised.batches[at];
    if (!said) continue;
    if (said.state !== state)
      found.faults.push({ what: 'look', id, words: 'these second looks are not in the state that the record says' });
    else if (state === 'revealed')
      compareOne(found, { what: 'look', id, words: 'the answers to these second looks are not those in the record' }, [
        said.answers,
        answers,
      ]);
  }
}
