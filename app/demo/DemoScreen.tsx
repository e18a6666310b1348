'use client';

import { useQuery } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { ChooseSeat } from './ChooseSeat';
import styles from './demo.module.css';
import { YourCopy } from './YourCopy';

/** The demo's front page: what it is, a seat to take, and from then on the ways into the visitor's own copy. */
export function DemoScreen() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  const seated = me.data?.demo === true && (me.data.owner || me.data.seat !== null);
  return (
    <>
      <PageHead title="Kennel Quillmarsh" facts="a litter to try things on" />
      <Page>
        {me.isPending ? <Loading what="the demo" /> : null}
        <Refusal error={me.error} />
        {me.data?.demo === false ? <NoDemo /> : null}
        {me.data && seated ? <YourCopy me={me.data} /> : null}
        {me.data?.demo === true && !seated ? <Welcome /> : null}
      </Page>
    </>
  );
}

function NoDemo() {
  return (
    <EmptyState title="There is no demo at this address">
      <p>
        It has an address of its own, which is printed where Evenstack was started, and data of its own. Nothing of this
        server is in it.
      </p>
    </EmptyState>
  );
}

function Welcome() {
  return (
    <>
      <p className={styles.say}>
        Nine Leonberger puppies, four evaluators, two evaluations: the kennel, the dogs and every score in it are
        invented. Take one of the four seats; the other three are played by scripts, which are marked as such and see no
        more than you do.
      </p>
      <section className="stack reads upright gap-12" aria-labelledby="take">
        <h2 id="take">Take a seat</h2>
        <ChooseSeat />
        <p className="small">
          You get a copy of your own. Other visitors never see it, and it is removed after 24 hours. Nothing done here
          reaches the data of anybody’s real litter.
        </p>
      </section>
    </>
  );
}
