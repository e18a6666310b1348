import { createElement, type FunctionComponent } from 'react';
import { describe, expect, it } from 'vitest';
import { EvaluationProvider } from '../../../app/_evaluation/evaluationContext';
import { facesOf } from '#app/_evaluation/facesOf';
import { AsidesSection } from '../../../app/board/AsidesSection';
import { EvaluatorsSection } from '../../../app/board/EvaluatorsSection';
import { MeritSection } from '../../../app/board/MeritSection';
import { RobustnessLines } from '../../../app/board/RobustnessPart';
import { SecondResult } from '../../../app/board/SecondResult';
import type { SectionProps } from '../../../app/board/AgreementSection';
import type { BoardView } from '#lib/contract/boardView';
import type { EvaluationView, PuppyFace, SeatFace } from '#lib/contract/evaluationView';
import { structureAlone } from '#lib/sheet/cautions';
import { fullSheet } from '#lib/sheet/shippedSheets';
import { drawnElements, textOf } from '#tests/support/drawn';

const puppy = (name: string): PuppyFace => ({
  id: name,
  name,
  sex: 'dog',
  collar: 'none',
  secondMark: '',
  withdrawn: false,
});
const seat = (label: string, position: number): SeatFace => ({
  id: label,
  label,
  position,
  kind: 'hands',
  leads: false,
  picks: false,
  interest: '',
  organises: false,
  reads: false,
  owner: position === 0,
  state: 'locked',
});

const evaluation: EvaluationView = {
  id: 'e',
  name: 'Eight weeks',
  litterName: 'Quillmarsh',
  breed: '',
  ageDays: 56,
  heldOn: '2026-09-12',
  phase: 'deciding',
  callLink: '',
  callNumber: '',
  tableNote: '',
  viewer: { owner: true, seatId: 'breeder', leads: true, organises: false, reads: true },
  sheet: fullSheet,
  puppies: [puppy('Fern'), puppy('Moss')],
  seats: [seat('breeder', 0), seat('mentor', 1)],
  slots: [],
  purposes: [],
  plan: { kind: 'panel', learnerSeatId: null, discussion: 'roles', identity: 'shown', hoursSinceMeal: null },
  parties: [],
  round: null,
  revealed: true,
  lookOpen: false,
  commitments: null,
  head: { seq: 1, hash: 'a' },
  versions: { all: 1, own: 1 },
  imported: null,
};

const empty: BoardView = {
  roundId: 'r',
  revealedAt: 0,
  anonymous: false,
  purposes: [],
  slots: [],
  agenda: [],
  criteria: [],
  checks: [],
  evaluators: [],
  seatNotes: [],
  asides: [],
  notes: [],
  choices: [],
  unfair: [],
  repeats: [],
  notLocked: [],
  lateEntries: 0,
  looks: { answers: 0 },
  lookSettings: { noise: 1, tieHalfWidth: 0.5 },
  second: null,
  secondRoundCells: [],
  blindTo: [],
  engineVersion: '1',
};

const figure = { value: 1.25, low: 1, high: 1.5 };
const unknown = { undefined: 'one rater' };
const evaluator = (id: string): BoardView['evaluators'][number] => ({
  seat: id,
  severity: { value: -0.4, sd: 0.1, low: -0.6, high: -0.2 },
  liking: unknown,
  noise: { value: 0.5, sd: 0.1, low: 0.4, high: 0.6 },
  profile: { scaleUse: figure, agreement: figure, selfConsistency: unknown, drift: figure },
  sentence: `The ${id} scored lower than the others.`,
});
const purpose = (key: 'keep' | 'working' | 'companion'): BoardView['purposes'][number] => ({
  key,
  merit: [
    {
      puppy: 'Fern',
      estimate: 0.5,
      sd: 0.2,
      low: 0.1,
      high: 0.9,
      halfLow: 0.3,
      halfHigh: 0.7,
      mean: 0.5,
      ranks: [0.8, 0.2],
    },
  ],
  better: {},
  level: { value: 4.2, sd: 0.1, low: 4, high: 4.4 },
  sentence: `Fern leads for ${key}.`,
  meanSentence: null,
});

function drawn(Section: FunctionComponent<SectionProps>, part: Partial<BoardView>) {
  const link = { connected: true, lostAt: null, table: null };
  return createElement(EvaluationProvider, {
    evaluation,
    link,
    readAt: 0,
    children: createElement(Section, { board: { ...empty, ...part }, faces: facesOf(evaluation) }),
  });
}

describe('sections of the board', () => {
  it.each([
    ['who stands where', MeritSection],
    ['how each seat scored', EvaluatorsSection],
    ['beside merit', AsidesSection],
    ['the second round', SecondResult],
  ])('%s is left out where there is nothing to say', (_, Section) => {
    expect(textOf(drawn(Section, {}))).toBe('');
  });

  it('shows one purpose without tabs, and several in their fixed order whatever the order they came in', () => {
    expect(drawnElements(drawn(MeritSection, { purposes: [purpose('working')] }), 'button')).toEqual([]);
    const tabs = drawnElements(
      drawn(MeritSection, { purposes: [purpose('companion'), purpose('keep'), purpose('working')] }),
      'button',
    );
    expect(tabs.map((tab) => [tab['id'], tab['aria-selected']])).toEqual([
      ['tab-keep', 'true'],
      ['tab-working', 'false'],
      ['tab-companion', 'false'],
    ]);
  });

  it('ST3: beside the order stand what a reading is, what no interval holds, and how merit, chance, liking and scatter are made', () => {
    const section = drawn(MeritSection, { purposes: [purpose('keep')] });
    expect(textOf(section)).toContain(
      'Fern leads for keep. One reading is one way things may truly be that fits these scores.',
    );
    expect(textOf(section)).toContain('What all seats share');
    expect(drawnElements(section, 'dt').length).toBe(4);
    expect(textOf(section)).toContain('less the litter’s mean');
  });

  it('ST4: how far the order holds is told kind by kind, and a kind without a line is left out', () => {
    const lines = createElement(RobustnessLines, {
      found: { priors: [], without: ['Without the mentor the order stays as it is.'], settling: [] },
    });
    expect([
      textOf(lines).includes('Without one seat'),
      textOf(lines).includes('the order stays as it is'),
      textOf(lines).includes('Other assumptions'),
    ]).toEqual([true, true, false]);
    expect(textOf(createElement(RobustnessLines, { found: { priors: [], without: [], settling: [] } }))).toContain(
      'nothing to compare',
    );
  });

  it('ST4: what may be asked of how seats scored stands with them', () => {
    const told = textOf(
      drawn(EvaluatorsSection, {
        evaluators: [evaluator('breeder')],
        seatNotes: ['The breeder and the mentor gave the same score in 80 of 96 cells.'],
      }),
    );
    expect(told).toContain('in 80 of 96 cells');
  });

  it('ST4: says the finding in the sentence of the result, and gives the picture the same words', () => {
    const section = drawn(MeritSection, { purposes: [purpose('keep')] });
    expect(textOf(section)).toContain('Fern leads for keep.');
    expect(drawnElements(section, 'div').find((one) => one['role'] === 'img')?.['aria-label']).toContain(
      'Fern leads for keep. Points from the litter mean: Fern +0.50, first in 80 of 100.',
    );
  });

  it.each([
    ['keep', false],
    ['working', true],
    ['companion', true],
  ] as const)('SA5: an order for %s says or does not say that it speaks of structure alone', (key, said) => {
    expect(textOf(drawn(MeritSection, { purposes: [purpose(key)] })).includes(structureAlone)).toBe(said);
  });

  it('lists the seats in the order of the panel, not by how they scored', () => {
    const words = textOf(drawn(EvaluatorsSection, { evaluators: [evaluator('mentor'), evaluator('breeder')] }));
    expect(words.indexOf('The breeder scored')).toBeLessThan(words.indexOf('The mentor scored'));
  });

  it('ST1: a figure that is not defined is its reason, and a repeat is asked about only where a puppy came twice', () => {
    const once = textOf(drawn(EvaluatorsSection, { evaluators: [evaluator('mentor')] }));
    expect(once).toContain('only one seat scored this');
    expect(once).not.toMatch(/NaN|undefined|shown twice/);
    const twice = {
      ...evaluator('mentor'),
      profile: { scaleUse: figure, agreement: figure, selfConsistency: figure, drift: figure },
    };
    expect(textOf(drawn(EvaluatorsSection, { evaluators: [twice] }))).toContain(
      'Apart from itself on the puppy shown twice',
    );
  });

  it('BL9: an anonymous panel counts beside merit and names no seat there', () => {
    const aside = (who: string | null) => ({ puppy: 'Fern', seat: who, field: 'overall', value: 4 });
    const named = textOf(drawn(AsidesSection, { asides: [aside('breeder'), aside('mentor')] }));
    expect(named).toContain('mentor');
    const counted = textOf(drawn(AsidesSection, { anonymous: true, asides: [aside(null), aside(null)] }));
    expect(counted).toContain('Overall impression: seats by score');
    expect(counted).not.toMatch(/mentor|breeder/);
  });

  it.each([
    ['together', null, 'views moved closer, from more than one side'],
    ['oneVoice', 'mentor', 'the others came over to mentor'],
    ['oneVoice', null, 'the others came over to one seat'],
    ['apart', null, 'further apart than before'],
    ['unchanged', null, 'as far apart as before'],
    ['tooFew', null, 'too few seats scored it twice to say'],
  ] as const)('a second round that went “%s” (voice %s) is told as: %s', (kind, voice, words) => {
    const [criterion] = fullSheet.criteria;
    const cell = {
      puppy: 'Fern',
      criterion: criterion?.key ?? '',
      seats: 2,
      before: 2,
      after: kind === 'tooFew' ? null : 0.5,
      kind,
      voice,
    };
    expect(
      textOf(drawn(SecondResult, { second: { revealedAt: 0, cells: [cell], pulls: [], sentence: 'Views moved.' } })),
    ).toContain(words);
  });
});
