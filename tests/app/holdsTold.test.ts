import { createElement } from 'react';
import { expect, it } from 'vitest';
import { facesOf } from '#app/_evaluation/facesOf';
import { EvaluationProvider } from '../../app/_evaluation/evaluationContext';
import { AnswersToHold, BesideLines, besideOf } from '../../app/_result/BesidePuppy';
import { CheckFindings } from '../../app/_result/CheckFindings';
import { homeNoteView } from '#lib/blind/homeNoteView';
import { snapshotCards } from '#lib/blind/snapshotCards';
import type { HoldChoice } from '#lib/contract/decisionView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Snapshot } from '#lib/contract/snapshot';
import { checkNames, checkState, unexaminedOf } from '#lib/evaluation/checksMade';
import { choiceWords, holdsOf } from '#lib/evaluation/holdsOf';
import { decidePick } from '#lib/evaluation/pickOrder';
import { type CheckKey, checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { drawnElements, textOf } from '#tests/support/drawn';
import { coOwner, factsAt, id, mentor, moss, snapshotOf } from '#tests/support/evaluationFacts';

const facts = factsAt('revealed', { puppies: [moss], sheet: { ...factsAt('revealed').sheet, checks: [...checkKeys] } });
const keep = facts.slots[0]?.id ?? '';
const choices: readonly (HoldChoice | null)[] = [
  null,
  { kind: 'cleared' },
  { kind: 'again', on: '2026-10-10' },
  { kind: 'stays' },
];
/** No answer, each alone, each after each. */
const answered = [
  [],
  ...choices.map((one) => [one]),
  ...choices.flatMap((first) => choices.map((last) => [first, last])),
];

const said = (seatId: string, check: CheckKey, answer: string): Snapshot['answers'][number] => ({
  seatId,
  subject: id('1b'),
  field: `check:${check}`,
  counter: 1,
  body: { kind: 'check', check, answer, detail: '' },
});

type Case = {
  readonly check: CheckKey;
  readonly answers: readonly string[];
  readonly chosen: readonly (HoldChoice | null)[];
};

/** All that two seats may have answered to one check, with every row of veterinary answers to it. */
function casesOf(check: CheckKey): Case[] {
  const offered = checkByKey(check)?.answers.map(({ key }) => key) ?? [];
  const pairs = [[], ...offered.map((one) => [one]), ...offered.flatMap((one) => offered.map((other) => [one, other]))];
  return pairs.flatMap((answers) => answered.map((chosen) => ({ check, answers, chosen })));
}

/** Board, decision and note of the only puppy, as they follow from one case. */
function toldOf({ check, answers, chosen }: Case) {
  const snapshot = snapshotOf({
    sheet: facts.sheet,
    puppies: [moss],
    answers: answers.map((answer, at) => said([mentor, coOwner][at]?.id ?? '', check, answer)),
  });
  const recorded = chosen.map((choice, at) => ({
    puppyId: moss.id,
    check,
    answer: `word ${at}`,
    by: `surgeon ${at}`,
    at,
    choice,
  }));
  const holds = holdsOf(snapshot, recorded);
  const board = { checks: snapshotCards(snapshot, holds).checks };
  const unexamined = unexaminedOf(snapshot);
  const revealed = { board, decision: { holds, unexamined, decisions: [] }, addenda: [] } as unknown as Parameters<
    typeof besideOf
  >[1]['revealed'];
  const evaluation = { ...facts, seats: facts.seats } as unknown as EvaluationView;
  const note = homeNoteView(
    {
      facts: { ...facts, phase: 'sealed' },
      snapshot,
      decisions: [],
      holds,
      addenda: [],
      along: { contact: '', picture: null },
      scored: snapshot,
      litter: { puppies: [] },
    },
    moss.id,
  );
  const picked = (open: readonly string[]) =>
    decidePick(facts, { slotId: keep, puppyId: moss.id, unexamined: open }, { decisions: [], holds, unexamined });
  return {
    holds,
    board,
    revealed,
    evaluation,
    note,
    picked,
    beside: besideOf(moss.id, { revealed, faces: facesOf(evaluation) }),
    state: checkState(
      check,
      moss.sex,
      answers.map((answer) => ({ answer })),
    ),
  };
}

it.each(checkKeys)(
  'SA1: whatever two seats answered to the %s and a veterinary surgeon said to it, board, decision, record and note say no more and no less',
  (check) => {
    const name = checkByKey(check)?.name ?? '';
    for (const one of casesOf(check)) {
      const { holds, board, note, picked, beside, state } = toldOf(one);
      const holding = state === 'found' && checkByKey(check)?.holdsKeep === true;
      const last = one.chosen.at(-1);
      const stands = holding && (one.chosen.length === 0 || (last !== null && last?.kind !== 'cleared'));
      const answers = holding ? one.chosen.length : 0;
      expect([
        one,
        {
          holds: holds.map((hold) => [hold.check, hold.stands, hold.said.length]),
          board: board.checks.map((line) => [line.check, line.holds]),
          pick: picked([...checkKeys]),
          unasked: picked([]),
          beside: {
            holds: beside.holds !== '',
            found: beside.found !== '',
            answered: beside.answered !== '',
            open: beside.unexamined.includes(check),
          },
          note: {
            found: note.findings.map((finding) => [finding.check, finding.said.length]),
            normal: note.normal,
            open: note.unexamined.includes(name),
          },
        },
      ]).toEqual([
        one,
        {
          holds: holding ? [[check, stands, answers]] : [],
          board: one.answers.length > 0 ? [[check, stands]] : [],
          pick: stands ? 'on-hold' : null,
          unasked: stands ? 'on-hold' : 'unexamined',
          beside: {
            holds: stands,
            found: state === 'found' && !holding,
            answered: answers > 0,
            open: state === 'not-examined',
          },
          note: {
            found: state === 'found' ? [[name, answers]] : [],
            normal: state === 'normal' ? [name] : [],
            open: state === 'not-examined',
          },
        },
      ]);
      if (answers > 0) expect(beside.answered).toContain(`“word ${answers - 1}” (surgeon ${answers - 1})`);
    }
  },
);

it.each(answered.filter((chosen) => chosen.length > 0).map((chosen) => [chosen]))(
  'SA1: on board, pick and record the newest answer is the one that counts, and the one before it is superseded: %j',
  (chosen) => {
    const { holds, board, revealed, evaluation, beside } = toldOf({ check: 'bite', answers: ['undershot'], chosen });
    const link = { connected: true, lostAt: null, table: null };
    const faces = facesOf(evaluation);
    const findings = textOf(
      createElement(EvaluationProvider, {
        evaluation,
        link,
        readAt: 0,
        children: createElement(CheckFindings, { board: revealed.board, holds, faces }),
      }),
    );
    const lines = textOf(createElement(BesideLines, { beside }));
    const stands = holds[0]?.stands === true;
    const day = () => '10 October 2026';
    const words = choiceWords(chosen.at(-1) ?? null, day);
    for (const text of [findings, lines]) {
      expect(text).toContain(words);
      expect(text).toContain(`word ${chosen.length - 1}`);
      expect(text).not.toContain('word -');
    }
    expect(findings.includes('Holds a show or breeding keep until')).toBe(stands);
    expect(lines.includes(`asks for a veterinary answer that clears it: ${checkNames(['bite'])}`)).toBe(stands);
    expect(lines.includes('supersedes an earlier answer')).toBe(chosen.length === 2);
    const list = createElement(AnswersToHold, { said: holds[0]?.said ?? [] });
    expect(drawnElements(list, 'li')).toHaveLength(chosen.length);
    const [newest = '', ...older] = textOf(list).split('Superseded: ');
    expect(newest.toLowerCase()).toContain(words.toLowerCase());
    expect(older).toHaveLength(chosen.length - 1);
    expect(board.checks[0]?.holds).toBe(stands);
  },
);
