'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { useState, type FormEvent } from 'react';
import type { SlotView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { isRescoring } from '../_parts/isRescoring';
import { Refusal } from '../_parts/Refusal';
import { candidateLines } from './candidateLines';
import { CandidateChoice } from './CandidateChoice';
import styles from './PickForm.module.css';
import type { DecideProps } from './PicksSection';

type PickFormProps = DecideProps & { readonly slot: SlotView };

/** The place that is up: the panel's chances, who fits, and for those who may the pick with its reason. */
export function PickForm({ slot, ...props }: PickFormProps) {
  const { evaluation, revealed, faces } = props;
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [puppyId, setPuppyId] = useState('');
  const [reason, setReason] = useState('');
  const make = useMutation(trpc.decision.make.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const lines = candidateLines(slot, props);
  const chosen = lines.find((line) => line.puppy.id === puppyId && line.barred === null);
  const mayDecide = revealed.decision.mayDecide && !isRescoring(evaluation);
  const result = revealed.board.slots.find((one) => one.slotId === slot.id);
  const equal = result?.looks.verdict === 'equalOnStructure';
  const [ticked, setPreference] = useState<boolean | null>(null);
  const preference = ticked ?? equal;
  const decide = (chosenId: string | null) => make.mutate({ id: evaluation.id, slotId: slot.id, puppyId: chosenId, reason, preference: preference && chosenId !== null });
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (chosen) decide(chosen.puppy.id);
  };
  return (
    <form onSubmit={send} className={styles.form}>
      {result ? <p>{result.sentence}</p> : null}
      {result && result.looks.used > 0 ? <p>{result.looks.sentence}</p> : null}
      {equal ? <p className={styles.equal}>The scores and looks have said what they can. What is left is a preference: say whose it is and why. It goes into the record as a preference, not as evidence.</p> : null}
      {result?.close === true && !equal && evaluation.viewer.leads && mayDecide ? (
        <p>
          <Link href={`/look?id=${evaluation.id}&slot=${slot.id}`}>A second look first</Link>
        </p>
      ) : null}
      <CandidateChoice lines={lines} chosen={chosen?.puppy.id ?? ''} onChoose={setPuppyId} readOnly={!mayDecide} />
      {mayDecide ? (
        <>
          <FieldText label="Why" hint="Goes into the record." value={reason} onChange={setReason} kind="lines" maxLength={500} />
          <FieldTick
            label="This is a preference between puppies the scores do not tell apart"
            hint={equal ? 'The candidates count as equal on structure, so this stands ticked. Take it away only if the pick rests on something else.' : result?.close === true ? 'This place is a close call, so that is a usual answer.' : 'The scores lean to one puppy here; tick it only if that is what it is.'}
            ticked={preference}
            onChange={setPreference}
          />
          <div>
            <Button type="submit" tone="main" busy={make.isPending} disabled={!chosen}>
              {chosen ? `Pick ${chosen.puppy.name} for place ${faces.place(slot.id)}` : 'Choose a puppy first'}
            </Button>
          </div>
          <Confirm words="Leave this place empty" doIt="Yes, nobody takes it" busy={make.isPending} onConfirm={() => decide(null)}>
            <p>For when nobody fits, or whoever has this place waives it. The next place comes up; the reason above goes into the record.</p>
          </Confirm>
        </>
      ) : null}
      <Refusal error={make.error} />
    </form>
  );
}
