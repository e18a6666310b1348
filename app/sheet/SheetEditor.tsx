'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { type CheckKey, checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { nameLimit } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { CriterionList } from './CriterionList';
import styles from './sheet.module.css';
import { sheetFaults } from './sheetFaults';

type SheetEditorProps = {
  /** Null keeps it as a new sheet of the owner's own. */
  readonly id: string | null;
  readonly sheet: Sheet;
  readonly onClose: () => void;
};

/** A sheet of one's own: judged by the same schema as on the server before it is sent. */
export function SheetEditor({ id, sheet, onClose }: SheetEditorProps) {
  const [start] = useState<Sheet>(() =>
    id === null ? { ...sheet, name: `${sheet.name}, ours`.slice(0, nameLimit) } : sheet,
  );
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
    <div className={`stack gap-28 ${styles.editor}`}>
      <div className={`stack gap-16 ${styles.trio}`}>
        <FieldText
          label="Name of the sheet"
          value={draft.name}
          maxLength={nameLimit}
          fault={shown.get('name')}
          onChange={(name) => set({ name })}
        />
        <ScaleFields scale={draft.scale} fault={shown.get('scale')} onChange={(scale) => set({ scale })} />
      </div>
      <CriterionList
        criteria={draft.criteria}
        faults={shown}
        open={open}
        onOpen={setOpen}
        onChange={(criteria) => set({ criteria: [...criteria] })}
      />
      <CheckTicks chosen={draft.checks} onChange={(checks) => set({ checks })} />
      <Refusal error={save.error} />
      {shown.size > 0 ? <p role="alert">Something above cannot be kept like this yet.</p> : null}
      {tried && open !== null ? (
        <p role="alert">A criterion is still open above: put it in the sheet, or leave it, then save.</p>
      ) : null}
      <div className="tools">
        <Button tone="main" busy={save.isPending} onClick={send}>
          {id === null ? 'Save as a sheet of your own' : 'Save the sheet'}
        </Button>
        <Button onClick={onClose}>Leave without saving</Button>
      </div>
    </div>
  );
}

type CheckTicksProps = { readonly chosen: readonly CheckKey[]; readonly onChange: (chosen: CheckKey[]) => void };

/** Which checks go with the sheet, in their fixed order. */
function CheckTicks({ chosen, onChange }: CheckTicksProps) {
  return (
    <section className="stack gap-12">
      <h2>Checks</h2>
      <p className="text">A check that is left out holds nothing back: whoever leaves one out looks some other way.</p>
      <div className={styles.ticks}>
        {checkKeys.map((key) => (
          <FieldTick
            key={key}
            label={checkByKey(key)?.name ?? key}
            ticked={chosen.includes(key)}
            onChange={(ticked) => onChange(checkKeys.filter((one) => (one === key ? ticked : chosen.includes(one))))}
          />
        ))}
      </div>
    </section>
  );
}

type ScaleFieldsProps = {
  readonly scale: Sheet['scale'];
  readonly fault: string | undefined;
  readonly onChange: (scale: Sheet['scale']) => void;
};

const lows = [
  { key: '1', words: 'from 1' },
  { key: '0', words: 'from 0' },
] as const;
const stepOptions = Array.from({ length: 9 }, (_, index) => ({ key: String(index + 3), words: `${index + 3} steps` }));

/** 3 to 11 steps from 0 or 1. */
function ScaleFields({ scale: { low, high }, fault, onChange }: ScaleFieldsProps) {
  const steps = high - low + 1;
  return (
    <>
      <FieldChoice
        label="Scale"
        value={low === 0 ? '0' : '1'}
        options={lows}
        onChange={(key) => onChange({ low: Number(key), high: Number(key) + steps - 1 })}
      />
      <FieldChoice
        label="Steps"
        hint="About seven tell most; above ten people no longer repeat themselves. Two-sided criteria keep their own seven."
        value={String(steps)}
        options={stepOptions}
        fault={fault}
        onChange={(key) => onChange({ low, high: low + Number(key) - 1 })}
      />
    </>
  );
}
