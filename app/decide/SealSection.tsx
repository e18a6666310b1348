'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { isRescoring } from '../_parts/isRescoring';
import { Refusal } from '../_parts/Refusal';
import { Confirm } from '../_parts/Confirm';
import type { DecideProps } from './PicksSection';
import styles from './SealSection.module.css';

/** Seals the record once every place is picked. */
export function SealSection({ evaluation, revealed }: DecideProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const seal = useMutation(trpc.decision.seal.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  if (evaluation.phase !== 'deciding') return null;
  return (
    <section aria-labelledby="seal" className={styles.section}>
      <h2 id="seal">Seal the record</h2>
      {revealed.decision.maySeal && !isRescoring(evaluation) ? (
        <Confirm words="Seal the record" doIt="Seal it for good" busy={seal.isPending} onConfirm={() => seal.mutate({ id: evaluation.id })}>
          <p>
            After sealing, no pick can be made or taken back, no note or veterinary answer added, and no second look opened. The record can be read and
            printed. There is no unsealing.
          </p>
        </Confirm>
      ) : (
        <p>{isRescoring(evaluation) ? 'A second round is under way; the record is sealed after it.' : evaluation.lookOpen ? 'A second look is open; the record is sealed after it.' : revealed.decision.nextSlotId === null ? 'Every place is picked. The owner seals the record.' : 'When every place is picked, the owner seals the record; nothing changes after that.'}</p>
      )}
      <Refusal error={seal.error} />
    </section>
  );
}
