import type { EvaluationPhase } from '#lib/evaluation/phase';

export type EvaluationPage = 'setup' | 'practice' | 'photos' | 'score' | 'lesson' | 'board' | 'look' | 'decision' | 'record';

type PageLine = {
  readonly key: EvaluationPage;
  readonly words: string;
  readonly path: string;
  /** Phases in which there is something to see. */
  readonly phases: readonly EvaluationPhase[];
  readonly ownerOnly: boolean;
};

const always = ['preparing', 'scoring', 'deciding', 'sealed'] as const;

/** The pages of one evaluation, in the order of the work. */
export const evaluationPages: readonly PageLine[] = [
  { key: 'setup', words: 'Set-up', path: '/setup', phases: always, ownerOnly: true },
  { key: 'practice', words: 'Practice', path: '/practice', phases: ['preparing'], ownerOnly: false },
  { key: 'photos', words: 'Photographs', path: '/photos', phases: always, ownerOnly: false },
  { key: 'score', words: 'Score', path: '/score', phases: ['scoring'], ownerOnly: false },
  { key: 'lesson', words: 'Lesson', path: '/lesson', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'board', words: 'Board', path: '/board', phases: ['scoring', 'deciding', 'sealed'], ownerOnly: false },
  { key: 'look', words: 'Second looks', path: '/look', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'decision', words: 'Decision', path: '/decide', phases: ['deciding', 'sealed'], ownerOnly: false },
  { key: 'record', words: 'Record', path: '/record', phases: always, ownerOnly: false },
];
