'use client';

import { useQuery } from '@tanstack/react-query';
import type { Sheet } from '#lib/sheet/sheet';
import { useTRPC } from '../_data/trpc';
import { counted } from '../_parts/counted';
import { FieldChoice } from '../_parts/FieldChoice';
import { Refusal } from '../_parts/Refusal';
import { Part } from './Part';
import styles from './Setup.module.css';
import type { SetupDraft } from './setupDraft';
import type { Change } from './useSetupDraft';

type SheetPartProps = { readonly owner: boolean; readonly draft: SetupDraft; readonly sheet: Sheet | undefined; readonly error: unknown; readonly change: Change };

/** Which sheet is scored. It is copied into the round when that opens. */
export function SheetPart({ owner, draft, sheet, error, change }: SheetPartProps) {
  const trpc = useTRPC();
  const sheets = useQuery({ ...trpc.sheet.list.queryOptions(), enabled: owner });
  const options = (sheets.data ?? []).map((one) => ({ key: one.id, words: one.builtIn ? one.name : `${one.name} (your own)` }));
  const hands = sheet?.criteria.filter((criterion) => criterion.handsOnly).length ?? 0;
  return (
    <Part title="Sheet" note="More evaluators help more than more criteria: the short sheet is enough for a tired litter.">
      <div className={styles.pair}>
        {owner ? <FieldChoice label="Sheet" value={draft.sheetId} options={options} onChange={(sheetId) => change({ sheetId })} /> : <p>{sheet?.name ?? ''}, chosen by the owner.</p>}
        <div className={styles.beside}>
          {sheet ? (
            <p className="small figures">
              {counted(sheet.criteria.length, 'criterion', 'criteria')}, scores {sheet.scale.low} to {sheet.scale.high}
              {hands > 0 ? `, ${hands} by hand only` : ''}; {counted(sheet.checks.length, 'check')}
            </p>
          ) : null}
          {owner ? (
          <p>
            <a href={`/sheet?id=${draft.sheetId}`} target="_blank" rel="noreferrer">
              Read the sheet, or make it your own (in a new tab)
            </a>
          </p>
          ) : null}
        </div>
      </div>
      <Refusal error={sheets.error ?? error} />
    </Part>
  );
}
