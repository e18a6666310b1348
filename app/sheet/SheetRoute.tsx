'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { Sheet } from '#lib/sheet/sheet';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { counted } from '../_parts/textWords';
import { SheetEditor } from './SheetEditor';
import { SheetReader } from './SheetReader';
import styles from './sheet.module.css';

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
        <ul className={`list topped lined ${styles.list}`}>
          {(sheets.data ?? []).map((one) => (
            <li key={one.id}>
              <Link className="touch strong" href={`/sheet?id=${one.id}`}>
                {one.name}
              </Link>
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

type SheetDeskProps = { readonly id: string; readonly builtIn: boolean; readonly sheet: Sheet };

/** One sheet, to read; and, when asked for, to change. A sheet that came with the app is copied first. */
function SheetDesk({ id, builtIn, sheet }: SheetDeskProps) {
  const [editing, setEditing] = useState(false);
  const facts = `${counted(sheet.criteria.length, 'criterion', 'criteria')} · scores ${sheet.scale.low} to ${sheet.scale.high} · ${builtIn ? 'comes with Evenstack' : 'your own'}`;
  if (editing) {
    return (
      <>
        <PageHead title={builtIn ? `A copy of “${sheet.name}”` : `Change “${sheet.name}”`} />
        <Page>
          <SheetEditor id={builtIn ? null : id} sheet={sheet} onClose={() => setEditing(false)} />
        </Page>
      </>
    );
  }
  return (
    <>
      <PageHead title={sheet.name} facts={facts} />
      <Page>
        <div className="tools">
          <Button onClick={() => setEditing(true)}>
            {builtIn ? 'Copy to a sheet of your own' : 'Change this sheet'}
          </Button>
          {builtIn ? null : <p className="small">A round that is open keeps the sheet as it was when it opened.</p>}
        </div>
        <SheetReader sheet={sheet} />
      </Page>
    </>
  );
}
