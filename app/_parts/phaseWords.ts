import type { EvaluationPhase } from '#lib/evaluation/phase';

export const phaseWords: Readonly<Record<EvaluationPhase, string>> = {
  preparing: 'being prepared',
  scoring: 'being scored',
  deciding: 'revealed, to be decided',
  sealed: 'sealed',
};
