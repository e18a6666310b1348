'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { AddendumInput } from '#lib/contract/addendum';
import type { HoldChoice } from '#lib/contract/decisionView';
import { type CheckKey, checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import type { Revealed } from '../_evaluation/useRevealed';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { AddendumLines } from '../_result/AddendumLines';
import { HoldChoiceField } from '../decide/HoldChoiceField';
import { RecordSection } from './RecordSection';

type AddendaProps = { readonly revealed: Revealed; readonly faces: Faces };

/** What came after the seal, under the sealed part, which stays as it was. */
export function AddendaOfRecord({ revealed, faces }: AddendaProps) {
  const { phase, viewer } = useEvaluation();
  const addenda = revealed.addenda.filter(({ kind }) => kind !== 'behaviour');
  if (phase !== 'sealed') return null;
  return (
    <RecordSection id="addenda" title="Added after the sealing">
      <p>
        {addenda.length === 0 ? 'Nothing was added.' : 'What stands above was sealed before this and has not changed.'}
      </p>
      <AddendumLines addenda={addenda} faces={faces} />
      {viewer.owner ? (
        <div className="unprinted">
          <Disclosure words="Add something under the sealed record">
            <AddendumForm />
          </Disclosure>
        </div>
      ) : null}
    </RecordSection>
  );
}

const kinds = [
  { key: 'veterinary', words: 'A veterinary answer' },
  { key: 'correction', words: 'A fact is corrected' },
  { key: 'home', words: 'A home changed' },
] as const;

const nobody = 'none';

type Draft = {
  readonly kind: (typeof kinds)[number]['key'];
  readonly puppyId: string;
  readonly check: CheckKey;
  readonly text: string;
  readonly by: string;
  readonly choice: HoldChoice | null;
};

/** What would be sent; null while something is missing. */
function inputOf({ kind, puppyId, check, text, by, choice }: Draft): AddendumInput | null {
  if (text.trim() === '') return null;
  if (kind === 'correction') return { kind, puppyId: puppyId === nobody ? null : puppyId, text };
  if (puppyId === nobody) return null;
  if (kind === 'home') return { kind, puppyId, text };
  return by.trim() === '' || choice === null || (choice.kind === 'again' && choice.on === '')
    ? null
    : { kind, puppyId, check, text, by, choice };
}

const textLabels = {
  veterinary: 'What the veterinary surgeon said',
  correction: 'What is wrong above, and what is right',
  home: 'What changed',
} as const;

function AddendumForm() {
  const { id, puppies } = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const empty: Draft = {
    kind: 'veterinary',
    puppyId: puppies[0]?.id ?? nobody,
    check: checkKeys[0],
    text: '',
    by: '',
    choice: null,
  };
  const [draft, setDraft] = useState(empty);
  const write = useMutation(
    trpc.addendum.write.mutationOptions({
      onSuccess: () => {
        setDraft(empty);
        return queries.invalidateQueries();
      },
    }),
  );
  const change = (part: Partial<Draft>) => setDraft((before) => ({ ...before, ...part }));
  const addendum = inputOf(draft);
  const named = puppies.map((puppy) => ({ key: puppy.id, words: puppy.name }));
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (addendum) write.mutate({ id, addendum });
  };
  return (
    <form onSubmit={send} className="stack gap-10" aria-label="Addendum">
      <FieldChoice label="What it is" value={draft.kind} options={kinds} onChange={(kind) => change({ kind })} />
      <FieldChoice
        label="Puppy"
        value={draft.puppyId}
        options={draft.kind === 'correction' ? [...named, { key: nobody, words: 'no one puppy' }] : named}
        onChange={(puppyId) => change({ puppyId })}
      />
      {draft.kind === 'veterinary' ? (
        <FieldChoice
          label="Check"
          value={draft.check}
          options={checkKeys.map((key) => ({ key, words: checkByKey(key)?.name ?? key }))}
          onChange={(check) => change({ check })}
        />
      ) : null}
      <FieldText
        label={textLabels[draft.kind]}
        value={draft.text}
        onChange={(text) => change({ text })}
        kind="lines"
        maxLength={400}
        hint={
          draft.kind === 'home'
            ? 'Stays in the record; no home reads it on its note.'
            : 'Stands in the record, and on the note of this puppy’s home.'
        }
      />
      {draft.kind === 'veterinary' ? <WhoSaidIt draft={draft} onChange={change} /> : null}
      <div>
        <Button type="submit" busy={write.isPending} disabled={addendum === null}>
          Add it
        </Button>
      </div>
      <p className="small">
        It gets a line of its own in the record and cannot be taken back. What was sealed does not change: an answer
        that clears here opens no place.
      </p>
      <Refusal error={write.error} />
    </form>
  );
}

type WhoSaidItProps = { readonly draft: Draft; readonly onChange: (part: Partial<Draft>) => void };

/** A veterinary answer is somebody's, and clears a hold or does not. */
function WhoSaidIt({ draft, onChange }: WhoSaidItProps) {
  return (
    <>
      <FieldText
        label="Who said it"
        hint="Surgeon or practice, and when."
        value={draft.by}
        onChange={(by) => onChange({ by })}
        maxLength={80}
      />
      <HoldChoiceField choice={draft.choice} onChange={(choice) => onChange({ choice })} />
    </>
  );
}
