'use client';

import { useQuery } from '@tanstack/react-query';
import { useTRPC } from './_data/trpc';
import { ButtonLink } from './_parts/ButtonLink';
import styles from './home.module.css';

/** The way to one's devices; says so when one asks to be let in. */
export function HomeDevices() {
  const trpc = useTRPC();
  const devices = useQuery(trpc.session.devices.queryOptions());
  const asking = (devices.data?.asking.length ?? 0) > 0;
  return (
    <section className={styles.part} aria-label="Your devices">
      {asking ? (
        <p role="status" className={styles.warn}>
          A device asks to be let in to your place.
        </p>
      ) : null}
      <div className={styles.actions}>
        <ButtonLink href="/devices" tone={asking ? 'main' : 'plain'}>
          {asking ? 'See which device asks' : 'Your devices'}
        </ButtonLink>
      </div>
    </section>
  );
}
