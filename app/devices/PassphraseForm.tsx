'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { SecretField } from '../_parts/SecretField';
import { refusalDetails } from '../_data/refusalText';
import styles from './devices.module.css';

const shortest = 15;

/** Sets the passphrase, or changes it. */
export function PassphraseForm({ isSet }: { readonly isSet: boolean }) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [draft, setDraft] = useState({ current: '', passphrase: '', endOthers: false });
  const [tried, setTried] = useState(false);
  const save = useMutation(trpc.owner.setPassphrase.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const set = (part: Partial<typeof draft>) => setDraft((before) => ({ ...before, ...part }));
  const short = draft.passphrase.trim().length < shortest ? `At least ${shortest} characters.` : null;
  if (save.data) return <RecoveryCodes codes={save.data.recoveryCodes} />;
  return (
    <form
      className="stack gap-14"
      noValidate
      aria-label={isSet ? 'Change the passphrase' : 'Set a passphrase'}
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (short === null) save.mutate(draft);
      }}
    >
      {isSet ? (
        <SecretField
          label="Passphrase so far"
          hint="May stay empty within ten minutes of coming by the link from the terminal or by a recovery code."
          autoComplete="current-password"
          value={draft.current}
          onChange={(current) => set({ current })}
        />
      ) : null}
      <SecretField
        label={isSet ? 'New passphrase' : 'Passphrase'}
        hint="Four or five plain words are better than one clever one. No rule but the length."
        autoComplete="new-password"
        value={draft.passphrase}
        fault={tried ? short : null}
        onChange={(passphrase) => set({ passphrase })}
      />
      <FieldTick
        label="Sign out my other devices"
        ticked={draft.endOthers}
        onChange={(endOthers) => set({ endOthers })}
      />
      <Refusal
        error={save.error}
        words={refusalDetails(save.error)?.code === 'wrong-secret' ? 'The passphrase so far is not right.' : null}
      />
      <div className="wrap gap-12">
        <Button type="submit" tone="main" busy={save.isPending}>
          {isSet ? 'Change the passphrase' : 'Set the passphrase'}
        </Button>
      </div>
    </form>
  );
}

/** Shown this once: the server keeps only what they hash to. */
function RecoveryCodes({ codes }: { readonly codes: readonly string[] }) {
  const written = codes.map((code) => code.match(/.{4}/g)?.join('-') ?? code);
  return (
    <section className="stack gap-14" aria-label="Recovery codes">
      <p role="status">
        <b>The passphrase is set.</b> Write these eight codes down, or print them, and keep them where you keep papers.
        Each lets you in once if you forget the passphrase. They are not shown again; earlier ones no longer work.
      </p>
      <ol className={`key grid ${styles.codes}`}>
        {written.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ol>
    </section>
  );
}
