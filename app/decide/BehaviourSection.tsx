'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { structureAlone } from '#lib/sheet/cautions';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { isRescoring } from '../_evaluation/isRescoring';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { AddendumLines } from '../_result/AddendumLines';
import type { DecideProps } from './Candidates';
import styles from './decide.module.css';

/** What no order knows: how a puppy behaves, by whoever lives with it. It stands beside the candidates, in no merit (SA5). */
export function BehaviourSection({ revealed, faces }: DecideProps) {
  const evaluation = useEvaluation();
  const notes = revealed.addenda.filter(({ kind }) => kind === 'behaviour');
  const mayWrite = evaluation.viewer.owner && evaluation.phase === 'deciding';
  return (
    <section aria-labelledby="behaviour" className="stack gap-12">
      <h2 id="behaviour">How they behave</h2>
      <p>{structureAlone}</p>
      {notes.length === 0 ? <p>Nothing is written down.</p> : <AddendumLines addenda={notes} faces={faces} />}
      {mayWrite ? (
        <Disclosure words="Write down how a puppy behaves">
          <BehaviourForm waits={evaluation.lookOpen || isRescoring(evaluation)} />
        </Disclosure>
      ) : null}
    </section>
  );
}

/** `waits` while something blind is open: what is told to all would reach seats that have not answered. What is typed stays. */
function BehaviourForm({ waits }: { readonly waits: boolean }) {
  const { id, puppies } = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const staying = puppies.filter(({ withdrawn }) => !withdrawn);
  const [puppyId, setPuppyId] = useState(staying[0]?.id ?? '');
  const [text, setText] = useState('');
  const [by, setBy] = useState('');
  const write = useMutation(
    trpc.addendum.write.mutationOptions({
      onSuccess: () => {
        setText('');
        return queries.invalidateQueries();
      },
    }),
  );
  const ready = !waits && text.trim() !== '' && by.trim() !== '';
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) write.mutate({ id, addendum: { kind: 'behaviour', puppyId, text, by } });
  };
  return (
    <form onSubmit={send} className={`stack gap-10 ${styles.form}`} aria-label="How a puppy behaves">
      <FieldChoice
        label="Puppy"
        value={puppyId}
        options={staying.map((puppy) => ({ key: puppy.id, words: puppy.name }))}
        onChange={setPuppyId}
      />
      <FieldText
        label="How it behaves"
        hint="Goes into the record, and onto the note for its home."
        value={text}
        onChange={setText}
        kind="lines"
        maxLength={400}
      />
      <FieldText label="By whom" hint="Whoever lives with it." value={by} onChange={setBy} maxLength={80} />
      <div>
        <Button type="submit" busy={write.isPending} disabled={!ready}>
          Write it down
        </Button>
      </div>
      {waits ? <p className="small">This waits until what is open now is revealed.</p> : null}
      <Refusal error={write.error} />
    </form>
  );
}
