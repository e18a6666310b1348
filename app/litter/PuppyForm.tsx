'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { Collar } from '#lib/contract/collar';
import type { LitterView, PuppyInput, PuppyView } from '#lib/contract/litter';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CollarChip, collarColour } from '../_parts/CollarChip';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { useFocusFirst } from '../_parts/useFocusFirst';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import styles from './litter.module.css';

type PuppyFormProps = {
  readonly litter: LitterView;
  /** Null for a new one. */
  readonly puppy: PuppyView | null;
  readonly onClose: () => void;
};

const collars = (Object.keys(collarColour) as Collar[]).map((key) => ({ key, words: key }));
const sexes = [
  { key: 'dog', words: 'dog' },
  { key: 'bitch', words: 'bitch' },
] as const;

/** One puppy. After a new one is saved the form stands ready for the next. */
export function PuppyForm({ litter, puppy, onClose }: PuppyFormProps) {
  const [start] = useState(() => puppy ?? freshPuppy(litter));
  const [draft, setDraft] = useState<PuppyInput>({
    name: start.name,
    sex: start.sex,
    collar: start.collar,
    secondMark: start.secondMark,
    chipDigits: start.chipDigits,
  });
  const [tried, setTried] = useState(false);
  const form = useFocusFirst();
  const queries = useQueryClient();
  const trpc = useTRPC();
  const save = useMutation(
    trpc.litter.savePuppy.mutationOptions({
      onSuccess: async () => {
        await queries.invalidateQueries();
        if (puppy) onClose();
      },
    }),
  );
  useUnsavedGuard(!save.isSuccess && (draft.name !== start.name || draft.secondMark !== start.secondMark));
  const set = (change: Partial<PuppyInput>) => setDraft((before) => ({ ...before, ...change }));
  const faults = puppyFaults(draft, { litter, puppy });
  return (
    <form
      ref={form}
      className={`sheet stack gap-16 boxed ${styles.puppyForm}`}
      noValidate
      aria-label={puppy ? `Change ${puppy.name}` : 'New puppy'}
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (faults.name === null && faults.chipDigits === null)
          save.mutate({ litterId: litter.id, puppyId: puppy?.id ?? null, puppy: draft });
      }}
    >
      <PuppyFields draft={draft} faults={tried ? faults : noFaults} onChange={set} />
      <Refusal
        error={save.error}
        words={
          refusalDetails(save.error)?.details.field === 'name'
            ? 'Another puppy of this litter has that name. Give this one a name of its own.'
            : null
        }
      />
      <div className={`wrap gap-12 ${styles.actions}`}>
        <Button type="submit" tone="main" busy={save.isPending}>
          {puppy ? `Save ${puppy.name}` : 'Save puppy'}
        </Button>
        <Button onClick={onClose}>{puppy ? 'Leave it as it was' : 'Done'}</Button>
      </div>
    </form>
  );
}

type PuppyFaults = ReturnType<typeof puppyFaults>;
const noFaults: PuppyFaults = { name: null, chipDigits: null };

type PuppyFieldsProps = {
  readonly draft: PuppyInput;
  readonly faults: PuppyFaults;
  readonly onChange: (change: Partial<PuppyInput>) => void;
};

/** What tells one puppy from another. */
function PuppyFields({ draft, faults, onChange }: PuppyFieldsProps) {
  return (
    <>
      <FieldText
        label="Name"
        value={draft.name}
        maxLength={40}
        fault={faults.name}
        onChange={(name) => onChange({ name })}
      />
      <FieldChoice label="Sex" value={draft.sex} options={sexes} onChange={(sex) => onChange({ sex })} />
      <div className={`grid gap-12 ${styles.collar}`}>
        <FieldChoice
          label="Collar"
          value={draft.collar}
          options={collars}
          onChange={(collar) => onChange({ collar })}
        />
        <CollarChip collar={draft.collar} size={28} words={false} />
      </div>
      <FieldText
        label="Second mark"
        hint="“white toe, left fore”"
        value={draft.secondMark}
        maxLength={80}
        onChange={(secondMark) => onChange({ secondMark })}
      />
      <FieldText
        label="Chip’s last four digits"
        kind="digits"
        value={draft.chipDigits}
        maxLength={4}
        fault={faults.chipDigits}
        onChange={(chipDigits) => onChange({ chipDigits })}
      />
    </>
  );
}

/** The next free collar, since most litters give each puppy its own. */
function freshPuppy({ puppies }: LitterView): PuppyInput {
  const free = collars.find(({ key }) => key !== 'none' && !puppies.some((one) => one.collar === key));
  return { name: '', sex: 'dog', collar: free?.key ?? 'none', secondMark: '', chipDigits: '' };
}

function puppyFaults(draft: PuppyInput, { litter, puppy }: Pick<PuppyFormProps, 'litter' | 'puppy'>) {
  const name = draft.name.trim().toLowerCase();
  const taken = litter.puppies.some((one) => one.id !== puppy?.id && one.name.toLowerCase() === name);
  return {
    name:
      name === ''
        ? 'Every puppy needs a name; a working name will do.'
        : taken
          ? 'Another puppy of this litter has that name.'
          : null,
    chipDigits: /^\d{0,4}$/.test(draft.chipDigits) ? null : 'Digits only, four at most.',
  };
}
