'use client';

import { useQuery } from '@tanstack/react-query';
import { useSearchParams } from 'next/navigation';
import { useState } from 'react';
import type { LitterView } from '#lib/contract/litter';
import { ageInDays } from '#lib/evaluation/ages';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Disclosure } from '../_parts/Disclosure';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { counted } from '../_parts/textWords';
import { dayWords, todayHere } from '../_parts/timeWords';
import { GrowthPicture } from './GrowthPicture';
import { LitterForm } from './LitterForm';
import { PuppyPart } from './PuppyPart';
import { StartEvaluation } from './StartEvaluation';
import { WeighForm } from './WeighForm';
import styles from './litter.module.css';

/** `/litter` starts a new litter, `/litter?id=…` opens one. */
export function LitterRoute() {
  const id = useSearchParams().get('id');
  return id === null ? <NewLitter /> : <StoredLitter key={id} id={id} />;
}

function NewLitter() {
  return (
    <>
      <PageHead title="New litter" />
      <Page width="text">
        <LitterForm id={null} litter={{ name: '', breed: '', dam: '', sire: '', whelpedOn: '' }} />
      </Page>
    </>
  );
}

function StoredLitter({ id }: { readonly id: string }) {
  const trpc = useTRPC();
  const litter = useQuery(trpc.litter.get.queryOptions({ id }));
  if (litter.data) return <LitterDesk litter={litter.data} />;
  return (
    <>
      <PageHead title="Litter" />
      <Page>
        {litter.isPending ? <Loading what="the litter" /> : null}
        <Refusal error={litter.error} />
      </Page>
    </>
  );
}

/** One litter: who its puppies are, how they grow, and the way to an evaluation. */
function LitterDesk({ litter }: { readonly litter: LitterView }) {
  const [today] = useState(todayHere);
  const age = ageInDays(litter.whelpedOn, today);
  return (
    <>
      <PageHead
        title={litter.name}
        facts={`${counted(litter.puppies.length, 'puppy', 'puppies')} · ${counted(age, 'day')} old today`}
      />
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
      <section aria-label="The litter" className="text">
        <LitterForm id={litter.id} litter={{ name, breed, dam, sire, whelpedOn }} onDone={() => setOpen(false)} />
      </section>
    );
  }
  return (
    <section aria-label="The litter" className={`wrap centred between ${styles.facts}`}>
      <dl className={`wrap ${styles.pairs}`}>
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

type WeightPartProps = { readonly litter: LitterView; readonly today: string };

/** Weights over time: context for the day, never a part of a score. */
function WeightPart({ litter, today }: WeightPartProps) {
  const [open, setOpen] = useState(false);
  if (litter.puppies.length === 0) return null;
  const weighed = litter.puppies.some((puppy) => puppy.weights.length > 0);
  return (
    <section className="stack gap-12">
      <h2>Weights</h2>
      <p className="small">
        Context only: heavy is not better, and no score is worked out from a weight. Evaluators do not see them.
      </p>
      {weighed ? (
        <>
          <GrowthPicture litter={litter} />
          <Disclosure bare className={`reads ${styles.more}`} words="The same as a table">
            <GrowthTable litter={litter} />
          </Disclosure>
        </>
      ) : (
        <EmptyState title="Nobody has been weighed yet">
          <p>Same scale, same hour, before a meal. From the second day on a line shows for each puppy.</p>
        </EmptyState>
      )}
      {open ? (
        <WeighForm litter={litter} today={today} onClose={() => setOpen(false)} />
      ) : (
        <div className={`wrap gap-12 ${styles.actions}`}>
          <Button onClick={() => setOpen(true)}>Weigh the litter</Button>
        </div>
      )}
    </section>
  );
}

/** Puppies down, days across, grams within. */
function GrowthTable({ litter }: { readonly litter: LitterView }) {
  const days = [...new Set(litter.puppies.flatMap(({ weights }) => weights.map(({ weighedOn }) => weighedOn)))].sort();
  return (
    <div className={styles.scroll} role="region" aria-label="Weights in grams" tabIndex={0}>
      <table className={styles.cells}>
        <caption className="aloud">Weights in grams</caption>
        <thead>
          <tr>
            <th scope="col">Puppy</th>
            {days.map((day) => (
              <th key={day} scope="col" className={styles.figure}>
                {counted(ageInDays(litter.whelpedOn, day), 'day')}
                <span className={styles.under}>{dayWords(day)}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {litter.puppies.map((puppy) => (
            <tr key={puppy.id}>
              <th scope="row">
                <CollarChip collar={puppy.collar} words={false} /> {puppy.name}
              </th>
              {days.map((day) => (
                <td key={day} className={styles.figure}>
                  {puppy.weights.find((weight) => weight.weighedOn === day)?.grams ?? (
                    <span className="aloud">not weighed</span>
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
