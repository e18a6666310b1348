'use client';

import { useState } from 'react';
import { ageInDays } from '#lib/evaluation/ageInDays';
import type { LitterView } from '#lib/contract/litter';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { dayWords } from '../_parts/dayWords';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { todayHere } from '../_parts/todayHere';
import styles from './Litter.module.css';
import { LitterForm } from './LitterForm';
import { PuppyPart } from './PuppyPart';
import { StartEvaluation } from './StartEvaluation';
import { WeightPart } from './WeightPart';

/** One litter: who its puppies are, how they grow, and the way to an evaluation. */
export function LitterDesk({ litter }: { readonly litter: LitterView }) {
  const [today] = useState(todayHere);
  const age = ageInDays(litter.whelpedOn, today);
  return (
    <>
      <PageHead title={litter.name} facts={`${counted(litter.puppies.length, 'puppy', 'puppies')} · ${counted(age, 'day')} old today`} />
      <Page>
        <LitterFacts litter={litter} />
        <PuppyPart litter={litter} />
        <WeightPart litter={litter} today={today} />
        <StartEvaluation litter={litter} today={today} />
      </Page>
    </>
  );
}

function LitterFacts({ litter }: { readonly litter: LitterView }) {
  const [open, setOpen] = useState(false);
  const { name, breed, dam, sire, whelpedOn } = litter;
  if (open) {
    return (
      <section aria-label="The litter" className={styles.narrow}>
        <LitterForm id={litter.id} litter={{ name, breed, dam, sire, whelpedOn }} onDone={() => setOpen(false)} />
      </section>
    );
  }
  return (
    <section aria-label="The litter" className={styles.facts}>
      <dl className={styles.pairs}>
        <Pair name="Breed" value={breed} />
        <Pair name="Dam" value={dam} />
        <Pair name="Sire" value={sire} />
        <Pair name="Whelped" value={dayWords(whelpedOn)} />
      </dl>
      <Button onClick={() => setOpen(true)}>Change the litter</Button>
    </section>
  );
}

function Pair({ name, value }: { readonly name: string; readonly value: string }) {
  return (
    <div>
      <dt className="small">{name}</dt>
      <dd>{value === '' ? 'not given' : value}</dd>
    </div>
  );
}
