'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SessionView } from '#lib/contract/sessionView';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import styles from './Devices.module.css';

/** What is kept about the person of this seat: to be taken along, and to be removed. */
export function OwnData({ seat }: { readonly seat: NonNullable<SessionView['seat']> }) {
  const client = useTRPCClient();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const save = useMutation({ mutationFn: async () => offerFile(JSON.stringify(await client.person.mine.query({ id: seat.evaluationId }), null, 2)) });
  const remove = useMutation(trpc.person.remove.mutationOptions({ onSuccess: () => queries.resetQueries() }));
  const open = refusalDetails(remove.error)?.code === 'still-open';
  return (
    <section className={styles.part}>
      <h2>What is kept about you</h2>
      <p>
        The name of your seat, a declared interest, your devices, and everything you entered and wrote. How your seat scored shows on the board after the
        reveal, to those who read it there.
      </p>
      <Refusal error={save.error} />
      <div className={styles.actions}>
        <Button busy={save.isPending} onClick={() => save.mutate()}>
          Save it as a file
        </Button>
      </div>
      <Confirm words="Remove my words" doIt="Remove them for good" busy={remove.isPending} onConfirm={() => remove.mutate({ id: seat.evaluationId, seatId: seat.id })}>
        <p>
          Your seat’s name, interest, notes and reasons are overwritten, and you are signed out on every device. Scores stay, under “removed”, and the record
          says that words were removed. What you had committed to can then no longer be checked. In an anonymous panel notes
          stay as they are, since one that changed would tell whose it was. Backups made before keep them. This cannot be taken back.
        </p>
      </Confirm>
      <Refusal error={remove.error} words={open ? 'A round is under way. Words can be removed before it opens, or once it is revealed.' : null} />
    </section>
  );
}

/** Handed to the browser as a download, made here: it goes through no address. */
function offerFile(text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = 'evenstack-my-data.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
