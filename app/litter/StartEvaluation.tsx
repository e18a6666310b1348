'use client';

import { useMutation, useQuery } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { ageInDays } from '#lib/evaluation/ages';
import type { LitterView } from '#lib/contract/litter';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { counted } from '../_parts/textWords';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { mediumOptions, quietTable } from '../setup/setupDraft';
import styles from './litter.module.css';

type StartEvaluationProps = { readonly litter: LitterView; readonly today: string };

/** An evaluation is one occasion of the litter at one age: day and sheet first, the rest on its own page. */
export function StartEvaluation({ litter, today }: StartEvaluationProps) {
  const [heldOn, setHeldOn] = useState(today < litter.whelpedOn ? litter.whelpedOn : today);
  const [typedName, setTypedName] = useState<string | null>(null);
  const [medium, setMedium] = useState<'table' | 'photographs'>('table');
  const [chosenSheet, setChosenSheet] = useState<string | null>(null);
  const router = useRouter();
  const trpc = useTRPC();
  const sheets = useQuery(trpc.sheet.list.queryOptions());
  const create = useMutation(
    trpc.setup.create.mutationOptions({ onSuccess: ({ id }) => router.push(`/setup?id=${id}`) }),
  );
  const age = ageInDays(litter.whelpedOn, heldOn);
  const name = typedName ?? `${litter.name}, ${counted(age, 'day')}`.slice(0, 80);
  const sheetId = chosenSheet ?? sheets.data?.[0]?.id ?? null;
  const options = (sheets.data ?? []).map((one) => ({
    key: one.id,
    words: `${one.name}: ${counted(one.criteria, 'criterion', 'criteria')}, scores ${one.low} to ${one.high}`,
  }));
  const faults = {
    name: name.trim() === '' ? 'It needs a name to go by.' : null,
    day: dayFault(heldOn, litter.whelpedOn),
  };
  const sound = faults.name === null && faults.day === null && sheetId !== null && litter.puppies.length > 0;
  return (
    <section className="stack gap-12">
      <h2>Start an evaluation</h2>
      {litter.puppies.length === 0 ? <p>Put the puppies in first.</p> : null}
      <form
        className={`sheet stack gap-16 text boxed ${styles.form}`}
        noValidate
        aria-label="Start an evaluation"
        onSubmit={(event) => {
          event.preventDefault();
          if (sound)
            create.mutate({
              litterId: litter.id,
              sheetId,
              input: { name, heldOn, medium, callLink: '', callNumber: '', tableNote: quietTable },
            });
        }}
      >
        <FieldText
          label="Day"
          kind="date"
          value={heldOn}
          hint={faults.day === null ? `${counted(age, 'day')} old` : undefined}
          fault={faults.day}
          onChange={setHeldOn}
        />
        <FieldText
          label="Name of the evaluation"
          value={name}
          maxLength={80}
          fault={faults.name}
          onChange={setTypedName}
        />
        <FieldChoice label="Scored from" value={medium} options={mediumOptions} onChange={setMedium} />
        <FieldChoice
          label="Sheet"
          hint="It can still be changed while you prepare."
          value={sheetId ?? ''}
          options={options}
          onChange={setChosenSheet}
        />
        <Refusal error={create.error ?? sheets.error} />
        <div className={`wrap gap-12 ${styles.actions}`}>
          <Button type="submit" tone="main" busy={create.isPending} disabled={!sound}>
            Prepare the evaluation
          </Button>
        </div>
      </form>
      <CautionNote caution="early-days" />
    </section>
  );
}

function dayFault(heldOn: string, whelpedOn: string): string | null {
  if (heldOn === '') return 'On which day?';
  return heldOn < whelpedOn ? 'That is before the whelping date.' : null;
}
