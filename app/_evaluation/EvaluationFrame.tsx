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
import { type EvaluationPage, PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { clockWords, momentWords } from '../_parts/timeWords';
import { Witness } from './Witness';
import { EvaluationProvider, useEvaluation } from './evaluationContext';
import { isRescoring } from './isRescoring';

type FrameProps = {
  /** Left out for a page that no line of the head leads to. */
  readonly here?: EvaluationPage;
  /** Instead of the litter's name. */
  readonly title?: string;
  /** `bare` for screens that fill the window and draw a head of their own. */
  readonly layout?: 'desk' | 'bare';
  /** Drawn in place of the children until the first reveal. */
  readonly beforeReveal?: ReactNode;
  readonly children: ReactNode;
};

/** Head, link state and the evaluation itself, for the pages of one evaluation; its id rides in the query. What stands inside asks `useEvaluation`. */
export function EvaluationFrame(props: FrameProps) {
  return (
    <Suspense
      fallback={
        <Page>
          <Loading what="the evaluation" />
        </Page>
      }
    >
      <Named {...props} />
    </Suspense>
  );
}

function Named(props: FrameProps) {
  const id = useSearchParams().get('id');
  if (id !== null && id !== '') return <Framed key={id} id={id} {...props} />;
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

function Framed({ id, layout = 'desk', beforeReveal, children, ...head }: FrameProps & { readonly id: string }) {
  const trpc = useTRPC();
  const link = useLive(id);
  const { data: evaluation, error, dataUpdatedAt } = useQuery(trpc.evaluation.get.queryOptions({ id }));
  if (!evaluation) {
    return (
      <>
        <PageHead title={head.title ?? 'Evaluation'} />
        <Page>
          {error === null ? <Loading what="the evaluation" /> : <Refusal error={error} />}
          {error === null && link.lostAt !== null ? (
            <p>There is no link to the server just now. It is tried again by itself.</p>
          ) : null}
        </Page>
      </>
    );
  }
  const inside = beforeReveal === undefined || evaluation.revealed ? children : beforeReveal;
  return (
    <EvaluationProvider evaluation={asRead(evaluation)} link={link} readAt={dataUpdatedAt}>
      {layout === 'desk' ? (
        <Desk lostAt={link.lostAt} {...head}>
          {inside}
        </Desk>
      ) : (
        <>
          <Witness />
          {inside}
        </>
      )}
    </EvaluationProvider>
  );
}

/** Of an imported evaluation nobody changes anything: whoever reads it is shown what a reader is. The server refuses all else. */
function asRead(evaluation: EvaluationView): EvaluationView {
  if (!evaluation.imported) return evaluation;
  return { ...evaluation, viewer: { ...evaluation.viewer, owner: false, leads: false } };
}

type DeskProps = Pick<FrameProps, 'here' | 'title' | 'children'> & { readonly lostAt: number | null };

function Desk({ here, title, lostAt, children }: DeskProps) {
  const evaluation = useEvaluation();
  const { id, phase, plan, viewer } = evaluation;
  const standing = evaluation.puppies.filter((puppy) => !puppy.withdrawn).length;
  // Set-up is about the evaluation, which gets its name there; all other pages are about the litter.
  const [head, other] =
    here === 'setup' ? [evaluation.name, evaluation.litterName] : [evaluation.litterName, evaluation.name];
  return (
    <>
      <PageHead
        title={title ?? head}
        facts={`${other} · ${standing} puppies · ${evaluation.ageDays} days old`}
        evaluation={{
          id,
          phase,
          owner: viewer.owner || viewer.organises,
          rescoring: isRescoring(evaluation),
          lesson: plan.kind === 'lesson',
        }}
        here={here}
      />
      <Page>
        <LinkLine lostAt={lostAt} />
        <Witness />
        <ImportedNotice imported={evaluation.imported} />
        {children}
        <RecordHeadLine head={evaluation.head} />
      </Page>
    </>
  );
}

/** Says when what is shown may be out of date. Silent while the link is up. */
function LinkLine({ lostAt }: { readonly lostAt: number | null }) {
  return (
    <p role="status" className={lostAt === null ? 'aloud' : 'warning unprinted'}>
      {lostAt === null
        ? ''
        : `No link to the server since ${clockWords(lostAt)}. What you see may be out of date; it catches up by itself.`}
    </p>
  );
}

/** Where an evaluation came in a file: what that shows, and what it cannot. */
function ImportedNotice({ imported }: Pick<EvaluationView, 'imported'>) {
  if (!imported) return null;
  return (
    <div className="told stack gap-6 boxed">
      <p>
        <b>Imported on {momentWords(imported.at)} from a file; its record was checked.</b> It is only read here. The
        file was written on {momentWords(imported.writtenAt)} by a server whose record then ended with line{' '}
        {imported.head.seq}, <code className="anywhere">{imported.head.hash.slice(0, 12)}</code>.
      </p>
      <p className="small">
        It shows that scores, looks and decisions are those of the record in the file, and no more: whoever wrote the
        file could have written that record anew. Only the devices of its panel can tell, which saw its lines as they
        were written.
      </p>
    </div>
  );
}

/** The record's head in one small line, to be read out and compared from device to device. */
function RecordHeadLine({ head }: Pick<EvaluationView, 'head'>) {
  return (
    <p className="small figures anywhere">
      Record: line {head.seq}, <code>{head.hash.slice(0, 12)}</code>. The same on every device that is up to date.
    </p>
  );
}
