'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useTRPC } from './_data/trpc';
import { Loading } from './_parts/Loading';
import { Page } from './_parts/Page';
import { PageHead } from './_parts/PageHead';
import { Refusal } from './_parts/Refusal';
import styles from './Home.module.css';
import { HomeBackups } from './HomeBackups';
import { HomeDevices } from './HomeDevices';
import { HomeEvaluations } from './HomeEvaluations';
import { HomeLeave } from './HomeLeave';
import { HomeLitters } from './HomeLitters';
import { HomeNext } from './HomeNext';
import { HomeSheets } from './HomeSheets';

/** The owner's desk: what to do next, then everything there is. */
export function HomeOwner({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const litters = useQuery(trpc.litter.list.queryOptions());
  const evaluations = useQuery(trpc.evaluation.list.queryOptions());
  const sheets = useQuery(trpc.sheet.list.queryOptions());
  const ready = litters.data && evaluations.data && sheets.data;
  return (
    <>
      <PageHead title="Your desk" facts={demo ? 'demonstration: an invented litter, thrown away after a day' : ''} />
      <Page>
        {ready ? null : <Loading what="your litters and evaluations" />}
        <Refusal error={litters.error ?? evaluations.error ?? sheets.error} />
        {ready ? (
          <>
            {demo ? <Link href="/demo">To the demonstration’s first page</Link> : null}
            <HomeNext litters={litters.data} evaluations={evaluations.data} />
            <div className={styles.columns}>
              <HomeEvaluations evaluations={evaluations.data} />
              <HomeLitters litters={litters.data} />
            </div>
            <HomeSheets sheets={sheets.data} />
            <HomeBackups />
          </>
        ) : null}
        <HomeDevices />
        <HomeLeave seat={null} />
      </Page>
    </>
  );
}
