'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { nameLimit } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { CheckTicks } from './CheckTicks';
import { CriterionList } from './CriterionList';
import { ScaleFields } from './ScaleFields';
import { sheetFaults } from './sheetFaults';
import styles from './Sheet.module.css';

type SheetEditorProps = {
  /** Null keeps it as a new sheet of the owner's own. */
  readonly id: string | null;
  readonly sheet: Sheet;
  readonly onClose: () => void;
};

/** A sheet of one's own: judged by the same schema as on the server before it is sent. */
export function SheetEditor({ id, sheet, onClose }: SheetEditorProps) {
  const [start] = useState<Sheet>(() => (id === null ? { ...sheet, name: `${sheet.name}, ours`.slice(0, nameLimit) } : sheet));
  const [draft, setDraft] = useState(start);
  const [tried, setTried] = useState(false);
  const [open, setOpen] = useState<string | null>(null);
  const router = useRouter();
  const queries = useQueryClient();
  const trpc = useTRPC();
  const save = useMutation(
    trpc.sheet.save.mutationOptions({
      onSuccess: async (saved) => {
        await queries.invalidateQueries();
        if (id === null) router.replace(`/sheet?id=${saved.id}`);
        onClose();
      },
    }),
  );
  useUnsavedGuard(open !== null || (!save.isSuccess && JSON.stringify(draft) !== JSON.stringify(start)));
  const set = (part: Partial<Sheet>) => setDraft((before) => ({ ...before, ...part }));
  const faults = sheetFaults(draft);
  const shown = tried ? faults : new Map<string, string>();
  const send = () => {
    setTried(true);
    if (faults.size === 0 && open === null) save.mutate({ id, sheet: draft });
  };
  return (
    <div className={styles.editor}>
      <div className={styles.trio}>
        <FieldText label="Name of the sheet" value={draft.name} maxLength={nameLimit} fault={shown.get('name')} onChange={(name) => set({ name })} />
        <ScaleFields scale={draft.scale} fault={shown.get('scale')} onChange={(scale) => set({ scale })} />
      </div>
      <CriterionList criteria={draft.criteria} faults={shown} open={open} onOpen={setOpen} onChange={(criteria) => set({ criteria: [...criteria] })} />
      <CheckTicks chosen={draft.checks} onChange={(checks) => set({ checks })} />
      <Refusal error={save.error} />
      {shown.size > 0 ? <p role="alert">Something above cannot be kept like this yet.</p> : null}
      {tried && open !== null ? <p role="alert">A criterion is still open above: put it in the sheet, or leave it, then save.</p> : null}
      <div className={styles.actions}>
        <Button tone="main" busy={save.isPending} onClick={send}>
          {id === null ? 'Save as a sheet of your own' : 'Save the sheet'}
        </Button>
        <Button onClick={onClose}>Leave without saving</Button>
      </div>
    </div>
  );
}
