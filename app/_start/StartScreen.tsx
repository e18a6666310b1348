'use client';

import { useQuery } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { ButtonLink } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { OwnerDesk } from './OwnerDesk';
import { SeatStart } from './SeatStart';
import styles from './start.module.css';

/** The first page: what it shows depends on who this browser is. */
export function StartScreen() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  if (me.data?.owner) return <OwnerDesk demo={me.data.demo} />;
  if (me.data?.seat) return <SeatStart seat={me.data.seat} demo={me.data.demo} />;
  return (
    <>
      <PageHead title="Evenstack" />
      <Page width="text">
        {me.isPending ? <Loading what="who this browser is" /> : null}
        <Refusal error={me.error} />
        {me.data ? <StrangerStart demo={me.data.demo} /> : null}
      </Page>
    </>
  );
}

/** For a browser without a session. */
function StrangerStart({ demo }: { readonly demo: boolean }) {
  return (
    <>
      <p className={styles.say}>
        Several people score the same litter’s structure, each alone and blind to the rest. Once all are in, Evenstack
        shows how far they agree, what the scores say together, and which choices are too close to call.
      </p>
      <section className="stack upright gap-12">
        <h2>{demo ? 'This is the demonstration' : 'You need a link or a code'}</h2>
        {demo ? (
          <>
            <p>
              You get a copy of your own of an invented litter, to try everything on. It is thrown away after a day;
              nothing in it is real.
            </p>
            <div className="wrap gap-12">
              <ButtonLink tone="main" href="/demo">
                Choose a seat in the demonstration
              </ButtonLink>
            </div>
          </>
        ) : (
          <>
            <p>
              Open the link you were sent, in this browser, or type the code that was read out to you. There is no
              account.
            </p>
            <div className="wrap gap-12">
              <ButtonLink tone="main" href="/join">
                Type a spoken code
              </ButtonLink>
              <ButtonLink href="/sign-in">Sign in as the owner</ButtonLink>
            </div>
            <p className="small">
              A link works once. If yours was used already, ask whoever runs the evaluation for a fresh one. If that is
              you, the owner’s link is printed where Evenstack was started.
            </p>
          </>
        )}
      </section>
      <CautionNote caution="not-veterinary" />
    </>
  );
}
