'use client';

import { useQuery } from '@tanstack/react-query';
import { useTRPC } from './_data/trpc';
import { Loading } from './_parts/Loading';
import { Page } from './_parts/Page';
import { PageHead } from './_parts/PageHead';
import { Refusal } from './_parts/Refusal';
import { HomeOwner } from './HomeOwner';
import { HomeSeat } from './HomeSeat';
import { HomeStranger } from './HomeStranger';

/** The first page: what it shows depends on who this browser is. */
export function Home() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  if (me.data?.owner) return <HomeOwner demo={me.data.demo} />;
  if (me.data?.seat) return <HomeSeat seat={me.data.seat} demo={me.data.demo} />;
  return (
    <>
      <PageHead title="Evenstack" />
      <Page width="text">
        {me.isPending ? <Loading what="who this browser is" /> : null}
        <Refusal error={me.error} />
        {me.data ? <HomeStranger demo={me.data.demo} /> : null}
      </Page>
    </>
  );
}
