'use client';

import { useQuery } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { SetupDesk } from './SetupDesk';
import { SetupStanding } from './SetupStanding';

/** `/setup?id=…`: an evaluation before the round opens, and who is in once it has. */
export function SetupScreen() {
  return (
    <EvaluationFrame here="setup">
      <Setup />
    </EvaluationFrame>
  );
}

function Setup() {
  const { id, viewer } = useEvaluation();
  const trpc = useTRPC();
  const { data: setup, error } = useQuery(trpc.setup.get.queryOptions({ id }));
  if (!setup) return error === null ? <Loading what="the set-up" /> : <Refusal error={error} />;
  return (
    <div className="stack gap-32">
      {setup.phase === 'preparing' ? <SetupDesk setup={setup} owner={viewer.owner} /> : <SetupStanding setup={setup} />}
    </div>
  );
}
