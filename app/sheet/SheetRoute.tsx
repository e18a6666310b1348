'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { useTRPC } from '../_data/trpc';
import { counted } from '../_parts/counted';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { SheetDesk } from './SheetDesk';
import styles from './Sheet.module.css';

/** `/sheet` lists the sheets, `/sheet?id=…` opens one. */
export function SheetRoute() {
  const id = useSearchParams().get('id');
  return id === null ? <SheetList /> : <StoredSheet key={id} id={id} />;
}

function SheetList() {
  const trpc = useTRPC();
  const sheets = useQuery(trpc.sheet.list.queryOptions());
  return (
    <>
      <PageHead title="Sheets" />
      <Page width="text">
        {sheets.isPending ? <Loading what="the sheets" /> : null}
        <Refusal error={sheets.error} />
        <ul className={styles.list}>
          {(sheets.data ?? []).map((one) => (
            <li key={one.id}>
              <Link href={`/sheet?id=${one.id}`}>{one.name}</Link>
              <span className="small figures">
                {counted(one.criteria, 'criterion', 'criteria')}, scores {one.low} to {one.high}
              </span>
            </li>
          ))}
        </ul>
      </Page>
    </>
  );
}

function StoredSheet({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  const stored = useQuery(trpc.sheet.get.queryOptions({ id }));
  if (stored.data) return <SheetDesk id={id} builtIn={stored.data.builtIn} sheet={stored.data.sheet} />;
  return (
    <>
      <PageHead title="Sheet" />
      <Page>
        {stored.isPending ? <Loading what="the sheet" /> : null}
        <Refusal error={stored.error} />
      </Page>
    </>
  );
}
