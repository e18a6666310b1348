import type { Criterion } from '#lib/sheet/criterion';

/**
 * A criterion while it is typed, flat: the three anchors are lowest, middle, highest, or too little, as asked, too much,
 * so that changing between one-sided and two-sided loses nothing.
 */
export type CriterionDraft = {
  readonly key: string;
  readonly name: string;
  readonly view: Criterion['view'];
  readonly handsOnly: boolean;
  readonly twoSided: boolean;
  readonly anchors: readonly [string, string, string];
  readonly labels: readonly [string, string, string];
  readonly why: string;
  readonly level: Criterion['steadiness']['level'];
  readonly note: string;
  readonly later: string;
  readonly evidence: Criterion['evidence'];
  readonly freeStance: boolean;
};

/** A new one. Where nobody knows yet, it says so rather than leave a blank. */
export const freshCriterion: CriterionDraft = {
  key: '',
  name: '',
  view: 'side',
  handsOnly: false,
  twoSided: false,
  anchors: ['', '', ''],
  labels: ['', '', ''],
  why: '',
  level: 'low',
  note: 'Our own criterion: nobody has followed it up yet.',
  later: 'Not known yet.',
  evidence: ['set-up'],
  freeStance: false,
};

export function criterionDraft(criterion: Criterion): CriterionDraft {
  const { key, name, view, handsOnly, twoSided, why, steadiness, later, evidence, freeStance } = criterion;
  const three = criterion.twoSided
    ? {
        anchors: [criterion.anchors.tooLittle, criterion.anchors.asked, criterion.anchors.tooMuch] as const,
        labels: [criterion.labels.tooLittle, '', criterion.labels.tooMuch] as const,
      }
    : {
        anchors: [criterion.anchors.low, criterion.anchors.middle, criterion.anchors.high] as const,
        labels: [criterion.labels.low, criterion.labels.middle, criterion.labels.high] as const,
      };
  return {
    key,
    name,
    view,
    handsOnly,
    twoSided,
    ...three,
    why,
    level: steadiness.level,
    note: steadiness.note,
    later,
    evidence,
    freeStance: freeStance ?? false,
  };
}

/** The criterion as typed; the schema still has to judge it. */
export function criterionOf(draft: CriterionDraft): Criterion {
  const { key, name, view, handsOnly, why, level, note, later, evidence, freeStance } = draft;
  const [first, middle, last] = draft.anchors;
  const [firstLabel, middleLabel, lastLabel] = draft.labels;
  const shared = {
    key,
    name,
    view,
    handsOnly,
    why,
    steadiness: { level, note },
    later,
    evidence,
    ...(freeStance ? { freeStance } : {}),
  };
  return draft.twoSided
    ? {
        ...shared,
        twoSided: true,
        anchors: { tooLittle: first, asked: middle, tooMuch: last },
        labels: { tooLittle: firstLabel, tooMuch: lastLabel },
      }
    : {
        ...shared,
        twoSided: false,
        anchors: { low: first, middle, high: last },
        labels: { low: firstLabel, middle: middleLabel, high: lastLabel },
      };
}

export const evidenceWords: Readonly<Record<Criterion['evidence'][number], string>> = {
  'set-up': 'set up',
  'free-stance': 'standing by itself',
  movement: 'moving',
  hands: 'under the hand',
  photograph: 'in a photograph',
};

export const levelWords: Readonly<Record<Criterion['steadiness']['level'], string>> = {
  low: 'low: changes a good deal',
  medium: 'medium',
  high: 'high: tends to stay',
};
