'use client';

import { useState, type FormEvent, type ReactNode } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Refusal } from '../_parts/Refusal';
import { CriterionChoice } from './CriterionChoice';
import styles from './LookAnswerForm.module.css';
import type { NextPair, OpenLookProps } from './OpenLookTable';
import { ownAnswerWords } from './ownAnswerWords';
import { type Choice, useLookAnswer } from './useLookAnswer';

type FormProps = OpenLookProps & { readonly left: PuppyFace; readonly right: PuppyFace; readonly next: NextPair };

/** Three big keys, the deciding criterion if one likes, and one press to give the answer: the last one closes the batch. */
export function LookAnswerForm({ look, evaluation, faces, left, right, next }: FormProps) {
  const [choice, setChoice] = useState<Choice | null>(look.own?.choice ?? null);
  const [criterion, setCriterion] = useState(look.own?.criterion ?? '');
  const answer = useLookAnswer(evaluation.id, look.id);
  const choiceOf = (puppy: PuppyFace): Choice => (puppy.id === look.firstPuppyId ? 'first' : 'second');
  const given = look.own;
  const changed = given === null || given.choice !== choice || (given.criterion ?? '') !== criterion;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (choice !== null) answer.give({ choice, criterion: criterion === '' ? null : criterion });
  };
  return (
    <form onSubmit={send} className={styles.form}>
      <fieldset className={styles.keys}>
        <legend className={styles.question}>Which is better set up for this place, on structure alone?</legend>
        {[left, right].map((puppy) => (
          <Key key={puppy.id} chosen={choice === choiceOf(puppy)} onChoose={() => setChoice(choiceOf(puppy))}>
            <CollarChip collar={puppy.collar} size={22} words={false} />
            {puppy.name}
          </Key>
        ))}
        <Key wide chosen={choice === 'tie'} onChoose={() => setChoice('tie')}>
          I cannot separate them
        </Key>
      </fieldset>
      <CriterionChoice criteria={evaluation.sheet.criteria} chosen={criterion} onChoose={setCriterion} />
      <Button type="submit" tone="main" busy={answer.busy} disabled={choice === null || !changed}>
        {given === null ? 'Give my answer' : 'Change my answer'}
      </Button>
      <p role="status">{ownAnswerWords({ look, faces, busy: answer.busy })}</p>
      {given !== null && !changed && next ? (
        <Button tone="main" onClick={next.go}>
          {next.words}
        </Button>
      ) : null}
      <Refusal error={answer.error} />
    </form>
  );
}

type KeyProps = { readonly chosen: boolean; readonly onChoose: () => void; readonly wide?: boolean; readonly children: ReactNode };

function Key({ chosen, onChoose, wide = false, children }: KeyProps) {
  return (
    <label className={`${styles.key} ${wide ? styles.wide : ''}`}>
      <input type="radio" name="choice" checked={chosen} onChange={onChoose} />
      <span className={styles.words}>{children}</span>
    </label>
  );
}
