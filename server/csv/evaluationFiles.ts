import { stringify } from 'csv-stringify/sync';
import type { Decision, Hold, HoldChoice } from '#lib/contract/decisionView';
import type { EntryBody } from '#lib/contract/entry';
import type { EvaluationFiles } from '#lib/contract/evaluationFiles';
import type { LookView } from '#lib/contract/lookView';
import type { Snapshot } from '#lib/contract/snapshot';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';

export type Kept = {
  readonly first: Snapshot;
  readonly second: Snapshot | null;
  readonly looks: readonly LookView[];
  readonly holds: readonly Hold[];
  readonly decisions: readonly Decision[];
  readonly anonymous: boolean;
  readonly viewerSeatId: string | null;
};

type Cell = string | number | null;
type Table = {
  readonly name: string;
  readonly holds: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
};

/**
 * Everything revealed of an evaluation as files a spreadsheet opens. What a person typed cannot start a formula: such text
 * gets an apostrophe before it. A number stays a number. In an anonymous panel answers of other seats are in none of them.
 */
export function evaluationFiles(kept: Kept): EvaluationFiles {
  const rounds = [kept.first, ...(kept.second ? [kept.second] : [])];
  const scores = rounds.map((round, at) => scoresTable(round, { kept, at }));
  const answers = everythingSaid(rounds, kept);
  const tables = [
    ...scores,
    answersTable(answers),
    checksTable(answers),
    looksTable(kept),
    decisionsTable(kept),
    veterinaryTable(kept),
  ];
  return {
    files: tables
      .filter(({ rows }) => rows.length > 0)
      .map(({ name, holds, heads, rows }) => ({ name, holds, text: csv([heads, ...rows]) })),
    commands: kept.anonymous ? [] : commands(kept.first, scores[0]),
    ownOnly: kept.anonymous,
  };
}

/** Excel takes a file without the mark for one in the machine's own old encoding. */
const csv = (rows: readonly (readonly Cell[])[]): string =>
  stringify(
    rows.map((row) => [...row]),
    { bom: true, escape_formulas: true, record_delimiter: 'windows' },
  );

const shown = (round: Snapshot, { anonymous, viewerSeatId }: Kept) =>
  round.seats.filter((seat) => seat.kind !== 'none' && (!anonymous || seat.id === viewerSeatId));
const nameOf = (round: Snapshot) => new Map(round.puppies.map((puppy) => [puppy.id, puppy.name]));
const labelOf = (round: Snapshot) => new Map(round.seats.map((seat) => [seat.id, seat.label]));

/** As `reconcile` reads it: what the result of that round counts, a blank for what it does not have. A second round holds the cells that were asked. */
function scoresTable(round: Snapshot, { kept, at }: { readonly kept: Kept; readonly at: number }): Table {
  const counted = new Map(
    panelFromSnapshot(round).scores.map((score) => [
      `${score.puppy} ${score.evaluator} ${score.criterion}`,
      score.value,
    ]),
  );
  const asked = (puppyId: string, criterion: string) =>
    round.cells === null || round.cells.some((cell) => cell.puppyId === puppyId && cell.criterion === criterion);
  const present = round.puppies.filter((puppy) => !puppy.withdrawn);
  const rows = present.flatMap((puppy) =>
    shown(round, kept).flatMap((seat) =>
      round.sheet.criteria
        .filter(({ key }) => asked(puppy.id, key))
        .map(({ key }) => [puppy.name, seat.label, key, counted.get(`${puppy.id} ${seat.id} ${key}`) ?? null]),
    ),
  );
  return {
    name: `scores-round-${at + 1}.csv`,
    holds: at === 0 ? 'Scores that count, one a line' : 'Scores of the second round',
    heads: ['puppy', 'evaluator', 'criterion', 'score'],
    rows,
  };
}

type Said = {
  readonly round: number;
  readonly evaluator: string;
  readonly puppy: Cell;
  readonly showing: Cell;
  readonly place: Cell;
  readonly kind: string;
  readonly about: Cell;
  readonly answer: Cell;
  readonly words: Cell;
};

/** Everything each seat answered, counted or not: the second showing of a puppy, unfair days, notes and own choices too. */
function everythingSaid(rounds: readonly Snapshot[], kept: Kept): Said[] {
  return rounds.flatMap((round, at) => {
    const [names, labels, seats] = [nameOf(round), labelOf(round), new Set(shown(round, kept).map((seat) => seat.id))];
    const showings = new Map(round.showings.map((one) => [one.id, one]));
    const places = new Map(round.slots.map((slot, place) => [slot.id, place + 1]));
    return round.answers
      .filter(({ seatId }) => seats.has(seatId))
      .map(({ seatId, subject, body }): Said => {
        const showing = showings.get(subject);
        const [kind, about, answer, words] = said(body, names);
        return {
          round: at + 1,
          evaluator: labels.get(seatId) ?? '',
          puppy: showing ? (names.get(showing.puppyId) ?? '') : null,
          showing: showing ? (showing.repeat ? 2 : 1) : null,
          place: showing ? null : (places.get(subject) ?? null),
          kind,
          about,
          answer,
          words,
        };
      });
  });
}

function answersTable(answers: readonly Said[]): Table {
  const rows = answers.map((one) => [
    one.round,
    one.evaluator,
    one.puppy,
    one.showing,
    one.place,
    one.kind,
    one.about,
    one.answer,
    one.words,
  ]);
  return {
    name: 'answers.csv',
    holds: 'Everything each seat answered',
    heads: ['round', 'evaluator', 'puppy', 'showing', 'place', 'kind', 'about', 'answer', 'words'],
    rows,
  };
}

function checksTable(answers: readonly Said[]): Table {
  const rows = answers
    .filter(({ kind }) => kind === 'check')
    .map((one) => [one.round, one.puppy, one.showing, one.about, one.evaluator, one.answer, one.words]);
  return {
    name: 'checks.csv',
    holds: 'Answers to the checks',
    heads: ['round', 'puppy', 'showing', 'check', 'evaluator', 'answer', 'words'],
    rows,
  };
}

const cannot = (body: { readonly value: number | null; readonly cannotJudge: boolean }): Cell =>
  body.cannotJudge ? 'cannot judge' : body.value;

/** Kind, what it is about, the answer, and words beside it. */
function said(
  body: EntryBody,
  names: ReadonlyMap<string, string>,
): readonly [kind: string, about: Cell, answer: Cell, words: Cell] {
  switch (body.kind) {
    case 'score':
    case 'free':
      return [body.kind, body.criterion, cannot(body), null];
    case 'overall':
      return [body.kind, null, cannot(body), null];
    case 'check':
      return [body.kind, body.check, body.answer, body.detail];
    case 'note':
      return [body.kind, body.criterion, null, body.text];
    case 'manner':
      return [body.kind, null, body.manner, null];
    case 'fair':
      return [body.kind, null, body.fair ? 'fair' : 'not a fair day', body.why];
    case 'choice':
      return [body.kind, body.chance, body.puppy === null ? null : (names.get(body.puppy) ?? null), body.reason];
  }
}

function looksTable({ first, looks, anonymous }: Kept): Table {
  const [names, labels] = [nameOf(first), labelOf(first)];
  const batches = [...new Set(looks.map((look) => look.batchId))];
  const rows = looks.flatMap((look) =>
    (anonymous ? [] : (look.answers ?? [])).map(({ seat, choice, criterion }) => [
      batches.indexOf(look.batchId) + 1,
      first.slots.findIndex((slot) => slot.id === look.slotId) + 1,
      look.medium,
      names.get(look.firstPuppyId) ?? '',
      names.get(look.secondPuppyId) ?? '',
      look.repeat ? 'yes' : 'no',
      labels.get(seat ?? '') ?? '',
      choice === 'tie' ? 'equal' : (names.get(choice === 'first' ? look.firstPuppyId : look.secondPuppyId) ?? ''),
      criterion,
    ]),
  );
  return {
    name: 'second-looks.csv',
    holds: 'Answers of closed second looks',
    heads: ['batch', 'place', 'medium', 'first', 'second', 'repeat', 'evaluator', 'choice', 'criterion'],
    rows,
  };
}

const day = (at: number): string => new Date(at).toISOString();

function decisionsTable({ first, decisions }: Kept): Table {
  const names = nameOf(first);
  const rows = decisions.map((one) => {
    const at = first.slots.findIndex((slot) => slot.id === one.slotId);
    const slot = first.slots[at];
    return [
      at + 1,
      slot?.taker ?? '',
      slot?.purpose ?? '',
      one.puppyId === null ? 'left empty' : (names.get(one.puppyId) ?? ''),
      one.by,
      one.reason,
      one.preference ? 'yes' : 'no',
      one.followedPanel === null ? null : one.followedPanel ? 'yes' : 'no',
      day(one.at),
    ];
  });
  return {
    name: 'decisions.csv',
    holds: 'Who picked whom, and why',
    heads: ['place', 'taker', 'purpose', 'puppy', 'by', 'reason', 'preference', 'as the panel', 'when'],
    rows,
  };
}

function veterinaryTable({ first, holds }: Kept): Table {
  const names = nameOf(first);
  const rows = holds.flatMap((hold): Cell[][] => {
    const about = [names.get(hold.puppyId) ?? '', hold.check, hold.answers.join('; '), hold.stands ? 'yes' : 'no'];
    if (hold.said.length === 0) return [[...about, null, null, null, null]];
    return hold.said.map(({ answer, by, choice, at }) => [...about, answer, by, chosen(choice), day(at)]);
  });
  return {
    name: 'holds.csv',
    holds: 'Checks that hold a puppy, and what a veterinary surgeon said',
    heads: ['puppy', 'check', 'answers', 'stands', 'veterinary answer', 'by', 'choice', 'when'],
    rows,
  };
}

/** An answer from before there was a choice let the hold fall. */
const chosen = (choice: HoldChoice | null): string =>
  choice === null
    ? 'cleared, before there was a choice'
    : choice.kind === 'again'
      ? `look again on ${choice.on}`
      : choice.kind;

/** A name as the command's own commas and a shell's quotes leave it: keys are letters, digits and hyphens. */
function commands({ sheet, purposes }: Snapshot, scores: Table | undefined): EvaluationFiles['commands'] {
  if (scores === undefined) return [];
  const twoSided = sheet.criteria.filter((one) => one.twoSided).map(({ key }) => key);
  return purposes.map(({ key, weights }) => {
    const weighed = sheet.criteria.map((one) => `${one.key}=${Number((weights[one.key] ?? 0).toFixed(6))}`);
    const options = [
      `--scale ${sheet.scale.low}..${sheet.scale.high}`,
      ...(twoSided.length > 0 ? [`--two-sided ${twoSided.join(',')}`] : []),
      `--weights ${weighed.join(',')}`,
    ];
    return { purpose: key, command: `npm run -s reconcile -- ${options.join(' ')} ${scores.name}` };
  });
}
