'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { ButtonLink } from '../_parts/ButtonLink';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import type { RouterOutputs } from '../_parts/routerOutputs';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { fileFault } from './fileFault';
import { ImportFile } from './ImportFile';
import { ImportHelp } from './ImportHelp';
import styles from './Import.module.css';
import { ImportPreview } from './ImportPreview';

type Evaluation = RouterOutputs['evaluation']['get'];
type ImportDeskProps = { readonly evaluation: Evaluation; readonly seat: Evaluation['seats'][number] };

/** First look at what would become of each row, then write: nothing before the second press. */
export function ImportDesk({ evaluation, seat }: ImportDeskProps) {
  const [text, setText] = useState('');
  const trpc = useTRPC();
  const queries = useQueryClient();
  const preview = useMutation(trpc.card.previewImport.mutationOptions());
  const write = useMutation(trpc.card.importScores.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  useUnsavedGuard(text !== '' && !write.isSuccess);
  // A preview stands for the text it was made from; other text needs another look.
  const looked = preview.data && preview.variables.text === text ? preview.data : null;
  const type = (next: string) => {
    setText(next);
    write.reset();
  };
  return (
    <div className={styles.columns}>
      <section className={styles.part}>
        <h2>Your scores as typed</h2>
        <ImportFile onText={type} />
        <FieldText label="Scores" kind="lines" hint="Or paste them here: one row a line, the heading first." value={text} maxLength={200_000} onChange={type} />
        <div className={styles.actions}>
          <Button tone={looked?.sound ? 'plain' : 'main'} busy={preview.isPending} disabled={text.trim() === ''} onClick={() => preview.mutate({ id: evaluation.id, text })}>
            See what would happen
          </Button>
        </div>
        <Refusal error={preview.error} words={fileFault(preview.error)} />
        {looked ? <ImportPreview preview={looked} /> : null}
        {looked?.sound && !write.isSuccess ? (
          <div className={styles.actions}>
            <Button tone="main" busy={write.isPending} onClick={() => write.mutate({ id: evaluation.id, text })}>
              Write these scores
            </Button>
          </div>
        ) : null}
        <Refusal error={write.error} words={fileFault(write.error)} />
        {write.isSuccess ? (
          <div role="status" className={styles.done}>
            <p>
              <b>On the server.</b> Look over your card before you lock it.
            </p>
            <ButtonLink tone="main" href={`/score?id=${evaluation.id}`}>
              Go to your card
            </ButtonLink>
          </div>
        ) : null}
      </section>
      <ImportHelp evaluation={evaluation} label={seat.label} />
    </div>
  );
}
