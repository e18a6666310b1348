'use client';

import { useQuery } from '@tanstack/react-query';
import type { RobustnessView } from '#lib/contract/boardView';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Disclosure } from '../_parts/Disclosure';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';

/** How far the order holds; worked out when somebody opens it, since it takes several times as long as the order itself. */
export function RobustnessPart() {
  return (
    <Disclosure lazy words="How far this order holds">
      <Asked />
    </Disclosure>
  );
}

function Asked() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data, error } = useQuery(trpc.board.robustness.queryOptions({ id: evaluation.id }));
  if (error) return <Refusal error={error} />;
  if (!data) return <Loading what="the order under other assumptions and without each seat; this takes some seconds" />;
  return <RobustnessLines found={data} />;
}

/** Each kind under its own head; what there is nothing to say of is left out. */
export function RobustnessLines({ found }: { readonly found: RobustnessView }) {
  const parts = [
    { head: 'Other assumptions', lines: found.priors },
    { head: 'Without one seat', lines: found.without },
    { head: 'What would settle it', lines: found.settling },
  ].filter(({ lines }) => lines.length > 0);
  if (parts.length === 0) return <p>With no open place and fewer than three seats there is nothing to compare.</p>;
  return (
    <>
      {parts.map(({ head, lines }) => (
        <div key={head} className="stack gap-6">
          <h3>{head}</h3>
          <ul className="stack points gap-4">
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
    </>
  );
}
