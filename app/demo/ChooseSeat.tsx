'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { DemoRole } from '#lib/contract/demoView';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { capital } from '../_parts/textWords';
import styles from './demo.module.css';
import { seatWords } from './seatWords';

/** Four seats, one press each. Entering makes a fresh copy, so everything fetched before is forgotten. */
export function ChooseSeat() {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const enter = useMutation(trpc.demo.enter.mutationOptions({ onSuccess: () => queries.resetQueries() }));
  const choose = (role: DemoRole) => enter.mutate({ role });
  return (
    <>
      <ul className={styles.seats}>
        {seatWords.map(({ role, name, place, says }) => (
          <li key={role} className={`grid starts gap-4 ${styles.seat}`}>
            <h3>{capital(name.replace('the ', ''))}</h3>
            <p className="small">{place}</p>
            <p>{says}</p>
            <Button
              onClick={() => choose(role)}
              disabled={enter.isPending}
              busy={enter.isPending && enter.variables.role === role}
            >
              Sit as {name}
            </Button>
          </li>
        ))}
      </ul>
      {enter.isPending ? (
        <p role="status" className="small">
          Making your copy…
        </p>
      ) : null}
      <Refusal
        error={enter.error}
        words={isFull(enter.error) ? 'The demo is full at the moment: every copy is in use. Try again later.' : null}
      />
    </>
  );
}

function isFull(error: { readonly data?: { readonly code?: unknown } | null | undefined } | null): boolean {
  return error?.data?.code === 'busy';
}
