'use client';

import { useQuery } from '@tanstack/react-query';
import { useSearchParams } from 'next/navigation';
import { ageInDays } from '#lib/evaluation/ages';
import { useTRPC } from '../_data/trpc';
import { useLive } from '../_data/useLive';
import type { RouterOutputs } from '../_parts/routerOutputs';
import { ButtonLink } from '../_parts/ButtonLink';
import { counted } from '../_parts/textWords';
import { EmptyState } from '../_parts/EmptyState';
import { isRescoring } from '../_evaluation/isRescoring';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { phaseWords } from '../_parts/phaseWords';
import { RecordHeadLine } from '../_evaluation/RecordHeadLine';
import { Refusal } from '../_parts/Refusal';
import { Witness } from '../_evaluation/Witness';
import { SetupDesk } from './SetupDesk';
import { SetupStanding } from './SetupStanding';

/** `/setup?id=…`: an evaluation before the round opens, and who is in once it has. */
export function SetupRoute() {
  const id = useSearchParams().get('id');
  if (id !== null) return <StoredSetup key={id} id={id} />;
  return (
    <>
      <PageHead title="Set-up" />
      <Page width="text">
        <EmptyState title="No evaluation chosen">
          <p>Choose one on your desk, or start one from a litter’s page.</p>
          <ButtonLink href="/">To your desk</ButtonLink>
        </EmptyState>
      </Page>
    </>
  );
}

function StoredSetup({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  useLive(id);
  const setup = useQuery(trpc.setup.get.queryOptions({ id }));
  const evaluation = useQuery(trpc.evaluation.get.queryOptions({ id }));
  if (setup.data && evaluation.data) return <Setup setup={setup.data} evaluation={evaluation.data} />;
  const error = setup.error ?? evaluation.error;
  return (
    <>
      <PageHead title="Set-up" />
      <Page>
        {error === null ? <Loading what="the evaluation" /> : null}
        <Refusal error={error} />
      </Page>
    </>
  );
}

type SetupProps = {
  readonly setup: RouterOutputs['setup']['get'];
  readonly evaluation: RouterOutputs['evaluation']['get'];
};

function Setup({ setup, evaluation }: SetupProps) {
  const { owner } = evaluation.viewer;
  const present = setup.puppies.filter((puppy) => !puppy.withdrawn).length;
  const age = ageInDays(setup.whelpedOn, setup.heldOn);
  return (
    <>
      <PageHead
        title={setup.name}
        facts={`${setup.litterName} · ${counted(present, 'puppy', 'puppies')} · ${counted(age, 'day')} old on the day · ${phaseWords[setup.phase]}`}
        evaluation={{ id: setup.id, phase: setup.phase, owner: true, rescoring: isRescoring(evaluation) }}
        here="setup"
      />
      <Witness evaluation={evaluation} />
      {setup.phase === 'preparing' ? <SetupDesk setup={setup} owner={owner} /> : <SetupStanding setup={setup} evaluation={evaluation} />}
      <RecordHeadLine head={evaluation.head} beneath />
    </>
  );
}
