'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import type { DemoView } from '#lib/contract/demoView';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Button, ButtonLink } from '../_parts/Button';
import { Drawer } from '../_parts/Drawer';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { momentWords } from '../_parts/timeWords';
import { ChooseSeat } from './ChooseSeat';
import styles from './demo.module.css';
import { seatName } from './seatWords';

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
        You sit as {seatName(copy.data.role)}. This copy is yours alone; other visitors never see it, and it is removed
        by {momentWords(copy.data.removedAt)}.
      </p>
      <div className="columns">
        <ToScore me={me} copy={copy.data} />
        <ToRead me={me} copy={copy.data} />
      </div>
      <StartOver />
    </>
  );
}

type PartProps = { readonly me: SessionView; readonly copy: DemoView };

function ToScore({ me, copy }: PartProps) {
  const others =
    'The other three seats are scripted: while you are here they score too, a puppy at a time, and nobody sees anybody’s scores.';
  return (
    <section className="stack reads upright gap-12" aria-labelledby="score">
      <h2 id="score">{copy.revealed ? 'Eight weeks: revealed' : 'Eight weeks: yours to score'}</h2>
      <p>{copy.revealed ? 'It has come to its reveal: everybody’s scores lie open on the board.' : others}</p>
      <div className="wrap gap-12 tops">
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
    <section className="stack reads upright gap-12" aria-labelledby="read">
      <h2 id="read">Six weeks: sealed, to read</h2>
      <p>
        A finished evaluation: a severe mentor who joined late, a close call, two second looks, a hold that a veterinary
        answer cleared and one to be looked at again, three decisions.
      </p>
      <div className="wrap gap-12 tops">
        <WayIn me={me} evaluationId={copy.sealedId} path="/board" tone="plain" words="Read the sealed board" />
        <WayIn me={me} evaluationId={copy.sealedId} path="/record" tone="plain" words="Read the sealed record" />
      </div>
    </section>
  );
}

/** Behind one more press, because the copy at hand goes with it. */
function StartOver() {
  const [open, setOpen] = useState(false);
  return (
    <div className="wrap gap-12 tops">
      <Button onClick={() => setOpen(true)}>Start over with another seat</Button>
      {open ? (
        <Drawer title="Start over" onClose={() => setOpen(false)}>
          <p>Any of these takes a fresh copy. The one you have is removed at once, with all you did in it.</p>
          <ChooseSeat />
        </Drawer>
      ) : null}
    </div>
  );
}

/** One press to the reveal, saying before what it does with the visitor's own card. */
function PlayToReveal() {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const play = useMutation(trpc.demo.playToReveal.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  return (
    <div className={`stack starts text topped gap-12 ${styles.skip}`}>
      <p>
        No patience for nine puppies? This locks your card as it stands, lets the scripted seats finish theirs and lock,
        and reveals. Until then nothing shows, and after that nothing goes back.
      </p>
      <Button busy={play.isPending} onClick={() => play.mutate()}>
        Bring it to its reveal
      </Button>
      {play.isPending ? (
        <p role="status" className="small">
          The scripted seats are finishing their cards…
        </p>
      ) : null}
      <Refusal error={play.error} />
    </div>
  );
}

type WayInProps = {
  readonly me: SessionView;
  readonly evaluationId: string;
  readonly path: string;
  readonly tone: 'plain' | 'main';
  readonly words: string;
};

/** A link into one evaluation. A seat belongs to one evaluation only, so for the other the visitor changes seats first. */
function WayIn({ me, evaluationId, path, tone, words }: WayInProps) {
  const href = `${path}?id=${evaluationId}`;
  if (me.owner || me.seat?.evaluationId === evaluationId) {
    return (
      <ButtonLink href={href} tone={tone}>
        {words}
      </ButtonLink>
    );
  }
  return <ChangeSeats evaluationId={evaluationId} href={href} tone={tone} words={words} />;
}

type ChangeSeatsProps = Pick<WayInProps, 'evaluationId' | 'tone' | 'words'> & { readonly href: string };

function ChangeSeats({ evaluationId, href, tone, words }: ChangeSeatsProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const router = useRouter();
  const sit = useMutation(
    trpc.demo.sitIn.mutationOptions({
      onSuccess: () => {
        queries.clear();
        router.push(href);
      },
    }),
  );
  return (
    <>
      <Button tone={tone} busy={sit.isPending} onClick={() => sit.mutate({ id: evaluationId })}>
        {words}
      </Button>
      <Refusal error={sit.error} />
    </>
  );
}
