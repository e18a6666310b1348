'use client';

import { createContext, type ReactNode, useContext, useMemo } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Link } from '../_data/useLive';

type EvaluationHere = {
  readonly evaluation: EvaluationView;
  readonly link: Link;
  /** When the evaluation was last read from the server. */
  readonly readAt: number;
};

const Here = createContext<EvaluationHere | null>(null);

/** Around the part of a page that is about one evaluation. */
export function EvaluationProvider({
  evaluation,
  link,
  readAt,
  children,
}: EvaluationHere & { readonly children: ReactNode }) {
  const here = useMemo(() => ({ evaluation, link, readAt }), [evaluation, link, readAt]);
  return <Here value={here}>{children}</Here>;
}

/** The evaluation that this part of the page is about, as last read. */
export function useEvaluation(): EvaluationView {
  return useEvaluationHere().evaluation;
}

/** The evaluation with the link to the server, and when it was read. */
export function useEvaluationHere(): EvaluationHere {
  const here = useContext(Here);
  if (here === null) throw new Error('this part of a page stands outside an evaluation');
  return here;
}
