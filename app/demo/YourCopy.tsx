'use client';

import { useQuery } from '@tanstack/react-query';
import type { DemoView } from '#lib/contract/demoView';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { momentWords } from '../board/momentWords';
import styles from './Demo.module.css';
import { PlayToReveal } from './PlayToReveal';
import { seatName } from './seatWords';
import { StartOver } from './StartOver';
import { WayIn } from './WayIn';

/** For a visitor with a copy: the evaluation to score, the one to read, and how to start over. */
export function YourCopy({ me }: { readonly me: SessionView }) {
  const trpc = useTRPC();
  const copy = useQuery(trpc.demo.get.queryOptions());
  if (!copy.data) {
    return (
      <>
        {copy.isPending ? <Loading what="your copy" /> : null}
        <Refusal error={copy.error} />
      </>
    );
  }
  return (
    <>
      <p className={styles.say}>
        You sit as {seatName(copy.data.role)}. This copy is yours alone; other visitors never see it, and it is removed by {momentWords(copy.data.removedAt)}.
      </p>
      <div className={styles.columns}>
        <ToScore me={me} copy={copy.data} />
        <ToRead me={me} copy={copy.data} />
      </div>
      <StartOver />
    </>
  );
}

type PartProps = { readonly me: SessionView; readonly copy: DemoView };

function ToScore({ me, copy }: PartProps) {
  const others = 'The other three seats are scripted: while you are here they score too, a puppy at a time, and nobody sees anybody’s scores.';
  return (
    <section className={styles.part} aria-labelledby="score">
      <h2 id="score">{copy.revealed ? 'Eight weeks: revealed' : 'Eight weeks: yours to score'}</h2>
      <p>{copy.revealed ? 'It has come to its reveal: everybody’s scores lie open on the board.' : others}</p>
      <div className={styles.actions}>
        {copy.revealed ? (
          <WayIn me={me} evaluationId={copy.openId} path="/board" tone="main" words="Read the board" />
        ) : (
          <WayIn me={me} evaluationId={copy.openId} path="/score" tone="main" words="Score it" />
        )}
      </div>
      {copy.revealed ? null : <PlayToReveal />}
    </section>
  );
}

function ToRead({ me, copy }: PartProps) {
  return (
    <section className={styles.part} aria-labelledby="read">
      <h2 id="read">Six weeks: sealed, to read</h2>
      <p>
        A finished evaluation: a severe mentor who joined late, a close call, two second looks, two holds cleared by a veterinary answer, three decisions.
      </p>
      <div className={styles.actions}>
        <WayIn me={me} evaluationId={copy.sealedId} path="/board" tone="plain" words="Read the sealed board" />
        <WayIn me={me} evaluationId={copy.sealedId} path="/record" tone="plain" words="Read the sealed record" />
      </div>
    </section>
  );
}
