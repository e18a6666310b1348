'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { BreedFigureInput } from '#lib/contract/photo';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { RatioKey } from '#lib/photo/ratio';
import { figuresOfBreed } from '#lib/sheet/breedProportions';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import styles from './CloseUp.module.css';
import { FieldNumber } from './FieldNumber';

type Props = { readonly evaluation: EvaluationView; readonly ratio: RatioKey; readonly confirmed: BreedFigureInput | undefined };

/** What the breed's standard gives for this ratio, with its measuring points and source; used once the owner has confirmed it. */
export function BreedFigurePart({ evaluation, ratio, confirmed }: Props) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const confirm = useMutation(trpc.photo.confirmFigure.mutationOptions({ onSuccess: () => queries.invalidateQueries(trpc.photo.figures.queryFilter({ id: evaluation.id })) }));
  const known = figuresOfBreed(evaluation.breed);
  const save = (figure: BreedFigureInput) => confirm.mutate({ id: evaluation.id, figure });
  return (
    <details>
      <summary>What the breed’s standard says</summary>
      <div className={styles.figures}>
        <p className="small">Published figures describe grown dogs, and standards differ in their measuring points. Hold them against the current edition of your own kennel organisation.</p>
        {confirmed && (
          <p>
            Confirmed: {confirmed.low.toFixed(2)} to {confirmed.high.toFixed(2)}, {confirmed.source}
          </p>
        )}
        {known.length === 0 && <p>No published figure is noted here for {evaluation.breed === '' ? 'this breed' : evaluation.breed}.</p>}
        <ul className={styles.lines}>
          {known.map(({ words, source, basis, ratio: of, published }) => (
            <li key={`${source} ${words}`}>
              <span>
                {words} <span className="small">{source}; {basis === 'read' ? 'read in a copy of the standard' : 'from memory, not checked'}.</span>
              </span>
              {evaluation.viewer.owner && published && of === ratio && (
                <Button tone="quiet" busy={confirm.isPending} onClick={() => save({ ratio, low: published[0], high: published[1], source })}>
                  Confirm<span className="aloud">: {words}</span>
                </Button>
              )}
            </li>
          ))}
        </ul>
        <Refusal error={confirm.error} />
        {evaluation.viewer.owner && <OwnFigure ratio={ratio} onSave={save} busy={confirm.isPending} />}
      </div>
    </details>
  );
}

function OwnFigure({ ratio, onSave, busy }: { readonly ratio: RatioKey; readonly onSave: (figure: BreedFigureInput) => void; readonly busy: boolean }) {
  const [low, setLow] = useState(1);
  const [high, setHigh] = useState(1);
  const [source, setSource] = useState('');
  const sound = low <= high && source.trim() !== '';
  return (
    <fieldset className={styles.own}>
      <legend className="small">Or put your own in its place</legend>
      <FieldNumber label="Lowest" value={low} range={[0.1, 5]} onChange={setLow} />
      <FieldNumber label="Highest" value={high} range={[0.1, 5]} onChange={setHigh} />
      <FieldText label="Standard, number and edition" value={source} maxLength={160} onChange={setSource} />
      <Button busy={busy} disabled={!sound} onClick={() => onSave({ ratio, low, high, source })}>
        Use this figure
      </Button>
    </fieldset>
  );
}
