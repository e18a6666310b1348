'use client';

import { useSearchParams } from 'next/navigation';
import { useQuery } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { LitterDesk } from './LitterDesk';
import { LitterForm } from './LitterForm';

/** `/litter` starts a new litter, `/litter?id=…` opens one. */
export function LitterRoute() {
  const id = useSearchParams().get('id');
  return id === null ? <NewLitter /> : <StoredLitter key={id} id={id} />;
}

function NewLitter() {
  return (
    <>
      <PageHead title="New litter" />
      <Page width="text">
        <LitterForm id={null} litter={{ name: '', breed: '', dam: '', sire: '', whelpedOn: '' }} />
      </Page>
    </>
  );
}

function StoredLitter({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  const litter = useQuery(trpc.litter.get.queryOptions({ id }));
  if (litter.data) return <LitterDesk litter={litter.data} />;
  return (
    <>
      <PageHead title="Litter" />
      <Page>
        {litter.isPending ? <Loading what="the litter" /> : null}
        <Refusal error={litter.error} />
      </Page>
    </>
  );
}
