'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import { useLive } from '../_data/useLive';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { offerFile } from '../_parts/offerFile';
import { Refusal } from '../_parts/Refusal';
import { ShownCode } from '../_parts/ShownCode';
import { refusalDetails } from '../_data/refusalText';
import { counted } from '../_parts/textWords';
import { momentWords } from '../_parts/timeWords';
import { DeviceList } from './DeviceList';
import { PassphraseForm } from './PassphraseForm';

/** The devices of one person: those that are in, one that asks, a code for another; for the owner her passphrase as well. */
export function DevicesScreen() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  const seat = me.data?.seat ?? null;
  useLive(seat?.evaluationId ?? null);
  const stranger = me.data !== undefined && !me.data.owner && seat === null;
  return (
    <>
      <PageHead title="Your devices" facts={seat ? seat.label : me.data?.owner ? 'the owner' : ''} />
      <Page width="text">
        {me.isPending ? <Loading what="who this browser is" /> : null}
        <Refusal error={me.error} />
        {stranger ? (
          <EmptyState title="This browser has no place yet">
            <p>
              <Link href="/join">Join with a link or a spoken code</Link> first.
            </p>
          </EmptyState>
        ) : null}
        {me.data && !stranger ? (
          <>
            <DeviceList unhurried={seat === null} />
            <AddDevice demo={me.data.demo} />
            {seat === null ? <PassphrasePart demo={me.data.demo} /> : <OwnData seat={seat} />}
          </>
        ) : null}
      </Page>
    </>
  );
}

/** A code by which a further device of the same person may ask. */
function AddDevice({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const make = useMutation(trpc.session.furtherCode.mutationOptions());
  if (demo)
    return <p className="small">In the demo this copy belongs to your browser alone: no other device can be let in.</p>;
  return (
    <section className="stack gap-14">
      <h2>Use another device of yours</h2>
      <p>
        Make a code here. On the other device open this same address followed by /join, and type it there. Then let it
        in here.
      </p>
      {make.data ? <ShownCode code={make.data.code} expiresAt={make.data.expiresAt} further /> : null}
      <Refusal error={make.error} />
      <div className="wrap gap-12">
        <Button busy={make.isPending} onClick={() => make.mutate()}>
          {make.data ? 'Make another code' : 'Make a code'}
        </Button>
      </div>
    </section>
  );
}

/** How the owner comes back on another device, without a link from the terminal. */
function PassphrasePart({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const secret = useQuery(trpc.owner.get.queryOptions());
  if (demo) return null;
  const set = secret.data?.passphraseSetAt ?? null;
  return (
    <section className="stack gap-14">
      <h2>Your passphrase</h2>
      <Refusal error={secret.error} />
      {secret.data ? (
        <>
          <p>
            {set === null
              ? 'Set a passphrase and you can sign in on any device, on the page /sign-in. Until then the only way in is the link printed where Evenstack is started.'
              : `Set on ${momentWords(set)}; ${counted(secret.data.recoveryCodes, 'recovery code is', 'recovery codes are')} unused.`}
          </p>
          <PassphraseForm isSet={set !== null} />
        </>
      ) : null}
    </section>
  );
}

/** What is kept about the person of this seat: to be taken along, and to be removed. */
function OwnData({ seat }: { readonly seat: NonNullable<SessionView['seat']> }) {
  const client = useTRPCClient();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const save = useMutation({
    mutationFn: async () =>
      offerFile(
        'evenstack-my-data.json',
        JSON.stringify(await client.person.mine.query({ id: seat.evaluationId }), null, 2),
      ),
  });
  const remove = useMutation(trpc.person.remove.mutationOptions({ onSuccess: () => queries.resetQueries() }));
  const open = refusalDetails(remove.error)?.code === 'still-open';
  return (
    <section className="stack gap-14">
      <h2>What is kept about you</h2>
      <p>
        The name of your seat, a declared interest, your devices, and everything you entered and wrote. How your seat
        scored shows on the board after the reveal, to those who read it there.
      </p>
      <Refusal error={save.error} />
      <div className="wrap gap-12">
        <Button busy={save.isPending} onClick={() => save.mutate()}>
          Save it as a file
        </Button>
      </div>
      <Confirm
        words="Remove my words"
        doIt="Remove them for good"
        busy={remove.isPending}
        onConfirm={() => remove.mutate({ id: seat.evaluationId, seatId: seat.id })}
      >
        <p>
          Your seat’s name, interest, notes and reasons are overwritten, and you are signed out on every device. Scores
          stay, under “removed”, and the record says that words were removed. What you had committed to can then no
          longer be checked. In an anonymous panel notes stay as they are, since one that changed would tell whose it
          was. Backups made before keep them. This cannot be taken back.
        </p>
      </Confirm>
      <Refusal
        error={remove.error}
        words={open ? 'A round is under way. Words can be removed before it opens, or once it is revealed.' : null}
      />
    </section>
  );
}
