'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { type ReactNode, Suspense } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { useLive } from '../_data/useLive';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import type { EvaluationPage } from '../_parts/evaluationPages';
import { RecordHeadLine } from './RecordHeadLine';
import { Witness } from './Witness';
import styles from './_evaluation.module.css';
import { isRescoring } from './isRescoring';

type FrameProps = {
  readonly here: EvaluationPage;
  readonly children: (evaluation: EvaluationView) => ReactNode;
};

/** Head, link state and the evaluation itself, for the pages of one evaluation; its id rides in the query. */
export function EvaluationFrame({ here, children }: FrameProps) {
  return (
    <Suspense fallback={<Page><Loading what="the evaluation" /></Page>}>
      <Named here={here}>{children}</Named>
    </Suspense>
  );
}

function Named({ here, children }: FrameProps) {
  const id = useSearchParams().get('id');
  if (id !== null) return <Framed id={id} here={here}>{children}</Framed>;
  return (
    <>
      <PageHead title="Which evaluation?" />
      <Page>
        <EmptyState title="This address names no evaluation">
          <p>
            Open one from the <Link href="/">start page</Link>, or use the link you were sent.
          </p>
        </EmptyState>
      </Page>
    </>
  );
}

function Framed({ id, here, children }: FrameProps & { readonly id: string }) {
  const trpc = useTRPC();
  const link = useLive(id);
  const { data: evaluation, error } = useQuery(trpc.evaluation.get.queryOptions({ id }));
  if (!evaluation) {
    return (
      <>
        <PageHead title="Evaluation" />
        <Page>{error === null ? <Loading what="the evaluation" /> : <Refusal error={error} />}</Page>
      </>
    );
  }
  const standing = evaluation.puppies.filter((puppy) => !puppy.withdrawn).length;
  return (
    <>
      <PageHead
        title={evaluation.litterName}
        facts={`${evaluation.name} · ${standing} puppies · ${evaluation.ageDays} days old`}
        evaluation={{ id, phase: evaluation.phase, owner: evaluation.viewer.owner || evaluation.viewer.organises, rescoring: isRescoring(evaluation), lesson: evaluation.plan.kind === 'lesson' }}
        here={here}
      />
      <Page>
        <LinkLine lostAt={link.lostAt} />
        <Witness evaluation={evaluation} />
        {children(evaluation)}
        <RecordHeadLine head={evaluation.head} />
      </Page>
    </>
  );
}

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Says when what is shown may be out of date. Silent while the link is up. */
function LinkLine({ lostAt }: { readonly lostAt: number | null }) {
  return (
    <p role="status" className={lostAt === null ? 'aloud' : styles.lost}>
      {lostAt === null ? '' : `No link to the server since ${clock.format(lostAt)}. What you see may be out of date; it catches up by itself.`}
    </p>
  );
}
