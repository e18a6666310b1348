'use client';

import Link from 'next/link';
import { useState } from 'react';
import { readCode, spokenLength } from '#lib/access/spokenCode';
import { Button } from '../_parts/Button';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { Refusal } from '../_parts/Refusal';
import styles from './JoinForm.module.css';
import { useArrive } from './useArrive';

type CodeFormProps = {
  /** There was something after the # that is no whole link. */
  readonly cutShort: boolean;
};

/** Ten letters and digits, as they were read out. */
export function CodeForm({ cutShort }: CodeFormProps) {
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
        className={styles.form}
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
              className={`${fieldStyles.control} ${styles.code}`}
              onChange={(event) => setTyped(event.target.value)}
            />
          )}
        </Field>
        <Refusal error={join.error} />
        <Button type="submit" tone="main" busy={join.isPending}>
          Join on this device
        </Button>
      </form>
      <p>
        <Link className={styles.go} href="/sign-in">
          You own this and have a passphrase? Sign in
        </Link>
      </p>
    </>
  );
}
