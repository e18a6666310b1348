'use client';

import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { FieldChoice } from '../_parts/FieldChoice';
import { Disclosure } from './Disclosure';
import styles from './DiscussionSection.module.css';
import { NoteForm } from './NoteForm';

/** A note on a puppy, on two of them, on a criterion, or on a puppy's criterion. */
export function NoteAbout({ evaluation }: { readonly evaluation: EvaluationView }) {
  const [puppy, setPuppy] = useState('');
  const [other, setOther] = useState('');
  const [criterion, setCriterion] = useState('');
  const puppies = evaluation.puppies.filter((one) => !one.withdrawn).map(({ id, name }) => ({ key: id, words: name }));
  const criteria = evaluation.sheet.criteria.map(({ key, name }) => ({ key, words: name }));
  const named = (id: string) => puppies.find(({ key }) => key === id)?.words ?? '';
  const pair = puppy !== '' && other !== '' && other !== puppy;
  const subject = [pair ? `${named(puppy)} and ${named(other)}` : named(puppy), criteria.find(({ key }) => key === criterion)?.words.toLowerCase() ?? ''].filter((part) => part !== '').join(', ');
  return (
    <Disclosure words="Write a note">
      <div className={styles.write}>
        <div className={styles.about}>
          <FieldChoice label="On puppy" value={puppy} options={[{ key: '', words: 'no puppy' }, ...puppies]} onChange={setPuppy} />
          <FieldChoice
            label="Beside"
            value={pair ? other : ''}
            disabled={puppy === ''}
            options={[{ key: '', words: 'no other' }, ...puppies.filter(({ key }) => key !== puppy)]}
            onChange={setOther}
          />
          <FieldChoice label="On criterion" value={criterion} options={[{ key: '', words: 'no criterion' }, ...criteria]} onChange={setCriterion} />
        </div>
        <NoteForm
          evaluation={evaluation}
          about={{ slotId: null, puppyId: puppy === '' ? null : puppy, otherPuppyId: pair ? other : null, criterion: criterion === '' ? null : criterion }}
          label={subject === '' ? 'Your note on the litter' : `Your note on ${subject}`}
        />
      </div>
    </Disclosure>
  );
}
