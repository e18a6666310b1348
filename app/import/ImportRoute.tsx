'use client';

import { useQuery } from '@tanstack/react-query';
import { useSearchParams } from 'next/navigation';
import { useTRPC } from '../_data/trpc';
import { ButtonLink } from '../_parts/ButtonLink';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import type { RouterOutputs } from '../_parts/routerOutputs';
import { ImportDesk } from './ImportDesk';

type Evaluation = RouterOutputs['evaluation']['get'];

/** `/import?id=…`: typed scores into the own seat's cards. */
export function ImportRoute() {
  const id = useSearchParams().get('id');
  if (id !== null) return <StoredImport key={id} id={id} />;
  return (
    <>
      <PageHead title="Typed scores" />
      <Page width="text">
        <EmptyState title="No evaluation chosen">
          <ButtonLink href="/">To the first page</ButtonLink>
        </EmptyState>
      </Page>
    </>
  );
}

function StoredImport({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  const evaluation = useQuery(trpc.evaluation.get.queryOptions({ id }));
  const { data } = evaluation;
  return (
    <>
      <PageHead
        title="Typed scores"
        facts={data?.name ?? ''}
        {...(data ? { evaluation: { id, phase: data.phase, owner: data.viewer.owner } } : {})}
      />
      <Page>
        {evaluation.isPending ? <Loading what="the evaluation" /> : null}
        <Refusal error={evaluation.error} />
        {data ? <ImportOrWhyNot evaluation={data} /> : null}
      </Page>
    </>
  );
}

function ImportOrWhyNot({ evaluation }: { readonly evaluation: Evaluation }) {
  const seat = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  if (!seat || seat.kind === 'none') return <WhyNot title="Your seat does not score" />;
  if (evaluation.round?.state !== 'open') return <WhyNot title="The round is not open" />;
  if (seat.state === 'locked') return <WhyNot title="Your card is locked" />;
  return <ImportDesk evaluation={evaluation} seat={seat} />;
}

function WhyNot({ title }: { readonly title: string }) {
  return (
    <EmptyState title={title}>
      <p>Typed scores can be brought in while the round is open and your own card is not locked.</p>
    </EmptyState>
  );
}
