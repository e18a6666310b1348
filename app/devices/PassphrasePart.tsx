'use client';

import { useQuery } from '@tanstack/react-query';
import { momentWords } from '../board/momentWords';
import { useTRPC } from '../_data/trpc';
import { counted } from '../_parts/counted';
import { Refusal } from '../_parts/Refusal';
import styles from './Devices.module.css';
import { PassphraseForm } from './PassphraseForm';

/** How the owner comes back on another device, without a link from the terminal. */
export function PassphrasePart({ demo }: { readonly demo: boolean }) {
  const trpc = useTRPC();
  const secret = useQuery(trpc.owner.get.queryOptions());
  if (demo) return null;
  const set = secret.data?.passphraseSetAt ?? null;
  return (
    <section className={styles.part}>
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
