'use client';

import { useState } from 'react';
import type { Sheet } from '#lib/sheet/sheet';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { SheetEditor } from './SheetEditor';
import { SheetReader } from './SheetReader';
import styles from './Sheet.module.css';

type SheetDeskProps = { readonly id: string; readonly builtIn: boolean; readonly sheet: Sheet };

/** One sheet, to read; and, when asked for, to change. A sheet that came with the app is copied first. */
export function SheetDesk({ id, builtIn, sheet }: SheetDeskProps) {
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
        <div className={styles.actions}>
          <Button onClick={() => setEditing(true)}>{builtIn ? 'Copy to a sheet of your own' : 'Change this sheet'}</Button>
          {builtIn ? null : <p className="small">A round that is open keeps the sheet as it was when it opened.</p>}
        </div>
        <SheetReader sheet={sheet} />
      </Page>
    </>
  );
}
