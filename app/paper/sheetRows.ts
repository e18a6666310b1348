import type { EntryBody } from '#lib/contract/entry';
import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { SeatKind } from '#lib/contract/setup';
import { degreeWords, mannerWords } from '../score/answerWords';
import { type Step, stepField, stepsFor, stepTitle } from '../score/steps';

/** One box on a sheet: the key that types it stands in the box, its words under it. */
type SheetBox = { readonly key: string; readonly words: string; readonly body: EntryBody };

/** One question on a sheet, and one row of keys when it is typed. */
export type SheetRow = {
  readonly field: string;
  readonly title: string;
  /** What the ends of its scale mean; empty where the boxes say it all. */
  readonly anchors: readonly string[];
  readonly boxes: readonly SheetBox[];
  /** What `-` or a blank says; null where it says nothing. */
  readonly notSeen: EntryBody | null;
  /** Whether it counts among what is asked. */
  readonly asked: boolean;
};

type Scale = { readonly low: number; readonly high: number };

/** What a seat of this kind is asked about a puppy in this round, as rows: a second round asks its cells alone. */
export function rowsOfSheet(
  { sheet, round }: Pick<EvaluationView, 'sheet' | 'round'>,
  kind: SeatKind,
  puppy: PuppyFace,
): readonly SheetRow[] {
  const cells = round?.cells ?? null;
  const isAsked = (step: Step) =>
    cells === null ||
    (step.kind === 'score' && cells.some((cell) => cell.puppyId === puppy.id && cell.criterion === step.criterion.key));
  return sheetRows(stepsFor(sheet, kind, puppy.sex).filter(isAsked), sheet.scale);
}

/** The rows of one sheet, in the order in which the screen asks. */
export function sheetRows(steps: readonly Step[], scale: Scale): readonly SheetRow[] {
  return steps.flatMap((step) => rowsOf(step, scale));
}

function rowsOf(step: Step, scale: Scale): readonly SheetRow[] {
  const row = { field: stepField(step), title: stepTitle(step), asked: step.kind !== 'free' };
  switch (step.kind) {
    case 'score':
    case 'free':
      return [{ ...row, ...criterionPart(step.kind, step.criterion, scale) }];
    case 'check':
      return [{ ...row, anchors: [], ...checkPart(step.check) }];
    case 'day':
      return [
        {
          ...row,
          title: 'Manner on the table',
          asked: false,
          anchors: [],
          notSeen: null,
          boxes: (['relaxed', 'tense', 'fought'] as const).map((manner, at) => ({
            key: String(at + 1),
            words: mannerWords[manner],
            body: { kind: 'manner', manner },
          })),
        },
        {
          ...row,
          field: 'fair',
          title: 'The day',
          asked: false,
          anchors: [],
          notSeen: null,
          boxes: [true, false].map((fair, at) => ({
            key: String(at + 1),
            words: fair ? 'a fair day' : 'not a fair day',
            body: { kind: 'fair', fair, why: '' },
          })),
        },
      ];
    case 'overall': {
      const say = (value: number | null): EntryBody => ({ kind: 'overall', value, cannotJudge: value === null });
      return [
        {
          ...row,
          anchors: [],
          notSeen: say(null),
          boxes: stepsOfScale(scale).map(({ key, value }) => ({ key, words: '', body: say(value) })),
        },
      ];
    }
  }
}

/** Every step has one sign: its number where that is one digit all through the scale, else a letter in its turn. */
function stepsOfScale({ low, high }: Scale): readonly { readonly key: string; readonly value: number }[] {
  const digits = low >= 0 && high <= 9;
  return Array.from({ length: high - low + 1 }, (_, at) => ({
    key: digits ? String(low + at) : 'abcdefghijklmno'.charAt(at),
    value: low + at,
  }));
}

type Scored = Extract<Step, { kind: 'score' | 'free' }>['criterion'];

function criterionPart(
  kind: 'score' | 'free',
  criterion: Scored,
  scale: Scale,
): Pick<SheetRow, 'anchors' | 'boxes' | 'notSeen'> {
  const say = (value: number | null): EntryBody => ({
    kind,
    criterion: criterion.key,
    value,
    cannotJudge: value === null,
  });
  if (criterion.twoSided) {
    const { tooLittle, tooMuch } = criterion.labels;
    const side = (value: number) => (value === 0 ? '' : `${value < 0 ? tooLittle : tooMuch}, `);
    return {
      anchors: [
        `1 to 3, ${tooLittle}: ${criterion.anchors.tooLittle}`,
        `4, as asked: ${criterion.anchors.asked}`,
        `5 to 7, ${tooMuch}: ${criterion.anchors.tooMuch}`,
      ],
      notSeen: say(null),
      boxes: [-3, -2, -1, 0, 1, 2, 3].map((value, at) => ({
        key: String(at + 1),
        words: `${side(value)}${degreeWords[Math.abs(value)] ?? ''}`,
        body: say(value),
      })),
    };
  }
  const { low, middle, high } = criterion.anchors;
  const boxes = stepsOfScale(scale);
  const named = (value: number) =>
    value === scale.low
      ? criterion.labels.low
      : value === scale.high
        ? criterion.labels.high
        : value === (scale.low + scale.high) / 2
          ? criterion.labels.middle
          : '';
  const keyAt = (value: number) => boxes.find((one) => one.value === value)?.key ?? '';
  const centre = keyAt((scale.low + scale.high) / 2);
  return {
    anchors: [
      `${keyAt(scale.low)}: ${low}`,
      ...(centre === '' ? [] : [`${centre}: ${middle}`]),
      `${keyAt(scale.high)}: ${high}`,
    ],
    notSeen: say(null),
    boxes: boxes.map(({ key, value }) => ({ key, words: named(value), body: say(value) })),
  };
}

function checkPart(check: Extract<Step, { kind: 'check' }>['check']): Pick<SheetRow, 'boxes' | 'notSeen'> {
  const say = (answer: string): EntryBody => ({ kind: 'check', check: check.key, answer, detail: '' });
  const unseen = check.answers.find(({ outcome }) => outcome === 'not-examined');
  const others = check.answers.filter((answer) => answer !== unseen);
  return {
    notSeen: unseen ? say(unseen.key) : null,
    boxes: others.map(({ key, words }, at) => ({ key: String(at + 1), words, body: say(key) })),
  };
}

/** What has been typed of one sheet so far, by field, and the row that is next. */
export type Typing = { readonly at: number; readonly said: Readonly<Record<string, EntryBody>> };
export const nothingTyped: Typing = { at: 0, said: {} };

/**
 * One key on the row that is next: a box's own sign, `-` or a blank for not seen, Enter to leave it blank as it is on the paper, Backspace to go
 * back. Null when the key says nothing there.
 */
export function typeKey(rows: readonly SheetRow[], { at, said }: Typing, key: string): Typing | null {
  if (key === 'Backspace') return at > 0 ? { at: at - 1, said } : null;
  const row = rows[at];
  if (!row) return null;
  if (key === 'Enter') {
    return { at: at + 1, said: Object.fromEntries(Object.entries(said).filter(([field]) => field !== row.field)) };
  }
  const body = key === '-' || key === ' ' ? row.notSeen : row.boxes.find((box) => box.key === key.toLowerCase())?.body;
  return body ? { at: at + 1, said: { ...said, [row.field]: body } } : null;
}

/** What a row says now, in the words of its box; null while nothing. */
export function saidWords(row: SheetRow, { said }: Typing): string | null {
  const body = said[row.field];
  if (!body) return null;
  const box = row.boxes.find((one) => one.body === body || JSON.stringify(one.body) === JSON.stringify(body));
  if (!box) return 'not seen';
  return box.words === '' ? box.key : `${box.key}, ${box.words}`;
}
