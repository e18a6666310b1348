'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useTRPC } from '../_data/trpc';
import { useLive } from '../_data/useLive';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { AddDevice } from './AddDevice';
import { DeviceList } from './DeviceList';
import { OwnData } from './OwnData';
import { PassphrasePart } from './PassphrasePart';

/** The devices of one person: those that are in, one that asks, a code for another; for the owner her passphrase as well. */
export function DevicesScreen() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  const seat = me.data?.seat ?? null;
  useLive(seat?.evaluationId ?? null);
  const stranger = me.data !== undefined && !me.data.owner && seat === null;
  return (
    <>
      <PageHead title="Your devices" facts={seat ? seat.label : me.data?.owner ? 'the owner' : ''} />
      <Page width="text">
        {me.isPending ? <Loading what="who this browser is" /> : null}
        <Refusal error={me.error} />
        {stranger ? (
          <EmptyState title="This browser has no place yet">
            <p>
              <Link href="/join">Join with a link or a spoken code</Link> first.
            </p>
          </EmptyState>
        ) : null}
        {me.data && !stranger ? (
          <>
            <DeviceList unhurried={seat === null} />
            <AddDevice demo={me.data.demo} />
            {seat === null ? <PassphrasePart demo={me.data.demo} /> : <OwnData seat={seat} />}
          </>
        ) : null}
      </Page>
    </>
  );
}
