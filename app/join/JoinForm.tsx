'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useRouter } from 'next/navigation';
import { useEffect, useState } from 'react';
import { readCode, spokenLength } from '#lib/access/spokenCode';
import { visitorQuestion } from '#lib/sheet/cautions';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { RoomCautions } from '../_parts/CautionNote';
import { AlreadyIn } from './AlreadyIn';
import { homeOf, useArrive, useLinkToken } from './useArrive';
import styles from './join.module.css';

const tokenForm = /^[A-Za-z0-9_-]{20,100}$/;

/** The way in: by a link, whose secret stands after the #, or by a spoken code that is typed here. */
export function JoinForm() {
  const trpc = useTRPC();
  const token = useLinkToken();
  const me = useQuery(trpc.session.me.queryOptions());
  const [asked, setAsked] = useState(false);
  if (me.data?.asking && !asked) setAsked(true);
  return (
    <main className={`stack gap-20 ${styles.page}`}>
      <p className={styles.mark}>Evenstack</p>
      {token === null || (me.isPending && !me.isError) ? (
        <Loading what="your place" />
      ) : me.data && (me.data.owner || me.data.seat) ? (
        asked ? (
          <LetIn me={me.data} />
        ) : (
          <AlreadyIn me={me.data} />
        )
      ) : tokenForm.test(token) ? (
        <LinkOffer token={token} />
      ) : me.data?.asking ? (
        <Waiting asking={me.data.asking} />
      ) : (
        <CodeForm cutShort={token !== ''} />
      )}
    </main>
  );
}

/** The first device has said yes: on to where this place belongs. */
function LetIn({ me }: { readonly me: SessionView }) {
  const router = useRouter();
  const place = homeOf(me);
  useEffect(() => router.replace(place), [place, router]);
  return <Loading what="your place" />;
}

/** The link's page. It dies at first use, so nothing is sent before a person presses: a preview must not use it up. */
function LinkOffer({ token }: { readonly token: string }) {
  const join = useArrive<string>((client, secret) => client.session.join.mutate({ token: secret }));
  return (
    <>
      <h1>Take your place at the panel</h1>
      <ul className={`stack points gap-10 ${styles.points}`}>
        <li>This browser takes the place the link was made for: no account, no password.</li>
        <li>The link works once. Press only on the device you will use on the day.</li>
        <li>Everybody scores alone. Nobody sees another’s scores before the reveal, the owner included.</li>
      </ul>
      <Refusal error={join.error} />
      <Button tone="main" busy={join.isPending || join.isSuccess} onClick={() => join.mutate(token)}>
        Join on this device
      </Button>
      <InTheRoom />
    </>
  );
}

/** For those who come to the puppies; whoever dials in or scores pictures need not heed it. */
function InTheRoom() {
  return (
    <div role="note" className="warned stack gap-12 roomy">
      <p>{visitorQuestion}</p>
      <Disclosure words="For everyone in the room">
        <RoomCautions />
      </Disclosure>
    </div>
  );
}

type WaitingProps = { readonly asking: NonNullable<SessionView['asking']> };

/** Without a session no doorbell rings here, so that it asks, unhurriedly. */
const everyMs = 3000;

/** A further device that its first has to let in: both show the same four digits. JoinForm goes on once it is in. */
function Waiting({ asking }: WaitingProps) {
  const trpc = useTRPC();
  const [again, setAgain] = useState(false);
  const waiting = asking.state === 'waiting';
  useQuery({
    ...trpc.session.me.queryOptions(),
    refetchInterval: waiting ? everyMs : false,
    refetchIntervalInBackground: true,
  });
  if (again) return <CodeForm cutShort={false} />;
  if (!waiting) {
    return (
      <>
        <h1>{asking.state === 'refused' ? 'Your first device said no' : 'Nobody answered in time'}</h1>
        <p>This device was not let in. Make a fresh code on your first device, and type it here.</p>
        <Button tone="main" onClick={() => setAgain(true)}>
          Type another code
        </Button>
      </>
    );
  }
  return (
    <>
      <h1>Now your first device</h1>
      <p>
        On the device that already has your place, open “Your devices” from the first page. Let this one in if it shows
        the same number:
      </p>
      <p className={`key ${styles.digits}`} aria-label={`Number ${Array.from(asking.digits).join(' ')}`}>
        {asking.digits}
      </p>
      <p role="status" className="small">
        Waiting for your first device. Only a device of the same place can let this one in; nobody else can, the owner
        included.
      </p>
    </>
  );
}

type CodeFormProps = {
  /** There was something after the # that is no whole link. */
  readonly cutShort: boolean;
};

/** Ten letters and digits, as they were read out. */
function CodeForm({ cutShort }: CodeFormProps) {
  const [typed, setTyped] = useState('');
  const [tried, setTried] = useState(false);
  const join = useArrive<string>((client, code) => client.session.joinByCode.mutate({ code }));
  const whole = readCode(typed, spokenLength) !== null;
  return (
    <>
      <h1>{cutShort ? 'This link is not complete' : 'Join with a spoken code'}</h1>
      <p>
        {cutShort
          ? 'The part after # is cut short. Open the whole link as it was sent, or ask for a spoken code and type it here.'
          : 'Type the code that was read out to you. It works once, for ten minutes. If you were sent a link instead, open that link.'}
      </p>
      <form
        className={`stack gap-16 ${styles.form}`}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (whole) join.mutate(typed);
        }}
      >
        <Field
          label="Spoken code"
          hint="Ten letters and digits. Capitals, blanks and hyphens make no difference; O is read as 0, I and L as 1."
          fault={tried && !whole ? 'A code has ten letters and digits, and no U.' : null}
        >
          {(ids) => (
            <input
              {...ids}
              value={typed}
              maxLength={40}
              autoComplete="one-time-code"
              autoCapitalize="characters"
              spellCheck={false}
              className={`key ${fieldStyles.control} ${styles.code}`}
              onChange={(event) => setTyped(event.target.value)}
            />
          )}
        </Field>
        <Refusal error={join.error} />
        <Button type="submit" tone="main" busy={join.isPending}>
          Join on this device
        </Button>
      </form>
      <InTheRoom />
      <p>
        <Link className={styles.go} href="/sign-in">
          You own this and have a passphrase? Sign in
        </Link>
      </p>
    </>
  );
}
