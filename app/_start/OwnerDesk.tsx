'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useState } from 'react';
import { ageInDays } from '#lib/evaluation/ages';
import { type RouterOutputs, useTRPC } from '../_data/trpc';
import { ButtonLink } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { counted, phaseWords } from '../_parts/textWords';
import { dayWords, todayHere } from '../_parts/timeWords';
import { BringEvaluation } from './BringEvaluation';
import { Backups } from './Backups';
import { DevicesWay, Leave } from './ThisBrowser';
import styles from './start.module.css';

/** The owner's desk: what to do next, then everything there is. */
export function OwnerDesk({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const litters = useQuery(trpc.litter.list.queryOptions());
  const evaluations = useQuery(trpc.evaluation.list.queryOptions());
  const sheets = useQuery(trpc.sheet.list.queryOptions());
  const ready = litters.data && evaluations.data && sheets.data;
  return (
    <>
      <PageHead title="Your desk" facts={demo ? 'demonstration: an invented litter, thrown away after a day' : ''} />
      <Page>
        {ready ? null : <Loading what="your litters and evaluations" />}
        <Refusal error={litters.error ?? evaluations.error ?? sheets.error} />
        {ready ? (
          <>
            {demo ? <Link href="/demo">To the demonstration’s first page</Link> : null}
            <NextThing litters={litters.data} evaluations={evaluations.data} />
            <div className="columns">
              <Evaluations evaluations={evaluations.data} demo={demo} />
              <Litters litters={litters.data} />
            </div>
            <Sheets sheets={sheets.data} />
            <Backups />
          </>
        ) : null}
        <DevicesWay />
        <Leave seat={null} />
      </Page>
    </>
  );
}

/** The sheets to read, copy and change. */
function Sheets({ sheets }: { readonly sheets: RouterOutputs['sheet']['list'] }) {
  return (
    <section className="stack upright gap-12">
      <h2>Sheets</h2>
      <p className="small">
        A sheet says what is scored, on which scale, in which words. Copy one to make it your own.
      </p>
      <ul className="list topped lined">
        {sheets.map((one) => (
          <li key={one.id} className={styles.row}>
            <Link href={`/sheet?id=${one.id}`} className={`touch ${styles.name}`}>
              {one.name}
            </Link>
            <span className="small figures">
              {counted(one.criteria, 'criterion', 'criteria')} · scores {one.low} to {one.high} ·{' '}
              {one.builtIn ? 'comes with Evenstack' : 'your own'}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

type NextProps = {
  readonly litters: RouterOutputs['litter']['list'];
  readonly evaluations: RouterOutputs['evaluation']['list'];
};

/** One sentence and one button: the next thing to do. */
function NextThing({ litters, evaluations }: NextProps) {
  const { say, href, words } = nextStep(litters, evaluations);
  return (
    <section aria-label="What to do next" className="stack upright gap-12">
      <p className={styles.say}>{say}</p>
      <div className="wrap gap-12">
        <ButtonLink tone="main" href={href}>
          {words}
        </ButtonLink>
      </div>
    </section>
  );
}

type Step = { readonly say: string; readonly href: string; readonly words: string };

function nextStep(litters: NextProps['litters'], evaluations: NextProps['evaluations']): Step {
  const open = evaluations.filter((one) => one.phase !== 'sealed' && one.importedAt === null);
  const scoring = open.find((one) => one.phase === 'scoring');
  if (scoring)
    return {
      say: `“${scoring.name}” is being scored. Your own card comes first.`,
      href: `/score?id=${scoring.id}`,
      words: 'Go to scoring',
    };
  const deciding = open.find((one) => one.phase === 'deciding');
  if (deciding)
    return {
      say: `“${deciding.name}” is revealed. The pick order is still to be walked through.`,
      href: `/board?id=${deciding.id}`,
      words: 'Go to the board',
    };
  const preparing = open.find((one) => one.phase === 'preparing');
  if (preparing)
    return {
      say: `“${preparing.name}” is being prepared. Finish the set-up, send the links, open the round.`,
      href: `/setup?id=${preparing.id}`,
      words: 'Go on with the set-up',
    };
  const bare = litters.find((one) => one.puppies === 0);
  if (bare)
    return {
      say: `“${bare.name}” has no puppies yet. Put them in, with their collars.`,
      href: `/litter?id=${bare.id}`,
      words: 'Put the puppies in',
    };
  const [litter] = litters;
  if (litter)
    return {
      say: `Start an evaluation of “${litter.name}” from its page.`,
      href: `/litter?id=${litter.id}`,
      words: 'Go to the litter',
    };
  return {
    say: 'Start with a litter: its name and whelping date, then its puppies and their collars.',
    href: '/litter',
    words: 'New litter',
  };
}

/** The litters with their age today. */
function Litters({ litters }: { readonly litters: RouterOutputs['litter']['list'] }) {
  const [today] = useState(todayHere);
  return (
    <section className="stack upright gap-12">
      <h2>Litters</h2>
      {litters.length === 0 ? (
        <EmptyState title="No litter yet">
          <p>Dam, sire and whelping date, then the puppies with their collars. Evaluators never see the parents.</p>
        </EmptyState>
      ) : (
        <ul className="list topped lined">
          {litters.map((one) => (
            <li key={one.id} className={styles.row}>
              <Link href={`/litter?id=${one.id}`} className={`touch ${styles.name}`}>
                {one.name}
              </Link>
              <span className="small figures">
                {one.breed === '' ? '' : `${one.breed} · `}
                {counted(one.puppies, 'puppy', 'puppies')} · {counted(ageInDays(one.whelpedOn, today), 'day')} old today
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="wrap gap-12">
        <ButtonLink href="/litter">New litter</ButtonLink>
      </div>
    </section>
  );
}

type Line = RouterOutputs['evaluation']['list'][number];

/** Each evaluation, with the page that its phase calls for. */
function Evaluations({ evaluations, demo }: { readonly evaluations: readonly Line[]; readonly demo: boolean }) {
  return (
    <section className="stack upright gap-12">
      <h2>Evaluations</h2>
      {evaluations.length === 0 ? (
        <EmptyState title="No evaluation yet">
          <p>An evaluation is one occasion of a litter at one age. Start it from the litter’s page.</p>
        </EmptyState>
      ) : (
        <ul className="list topped lined">
          {evaluations.map((one) => (
            <li key={one.id} className={styles.row}>
              <Link href={pageOf(one)} className={`touch ${styles.name}`}>
                {one.name}
              </Link>
              <span className="small figures">
                {one.litterName} · {dayWords(one.heldOn)} ·{' '}
                {one.importedAt === null ? phaseWords[one.phase] : 'imported from a file, only read here'}
              </span>
              {one.phase === 'preparing' || one.importedAt !== null ? null : (
                <Link href={`/setup?id=${one.id}`} className={`touch ${styles.side}`}>
                  Set-up<span className="aloud"> of {one.name}</span>
                </Link>
              )}
            </li>
          ))}
        </ul>
      )}
      {demo ? null : <BringEvaluation />}
    </section>
  );
}

function pageOf({ id, phase }: Line): string {
  if (phase === 'preparing') return `/setup?id=${id}`;
  return phase === 'scoring' ? `/score?id=${id}` : `/board?id=${id}`;
}
