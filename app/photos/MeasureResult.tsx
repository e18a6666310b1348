'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { measureRatio, type RatioQuestion } from '#lib/photo/measureRatio';
import { ratioPrompt, ratioSentence } from '#lib/photo/ratioSentence';
import { figureBand } from '#lib/sheet/figureBand';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { BreedFigurePart } from './BreedFigurePart';
import styles from './CloseUp.module.css';
import type { ToolProps } from './CloseUp';
import { MeasurementList } from './MeasurementList';

type Props = ToolProps & { readonly asked: RatioQuestion; readonly onKept: () => void };

/** The ratio with its range, what it is beside the breed's published figure, and what the seats found. A prompt, never a score. */
export function MeasureResult({ evaluation, photo, marks, asked, onKept }: Props) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const figures = useQuery(trpc.photo.figures.queryOptions({ id: evaluation.id }));
  const keep = useMutation(
    trpc.photo.measure.mutationOptions({
      onSuccess: () => {
        onKept();
        return queries.invalidateQueries(trpc.photo.marks.queryFilter({ id: evaluation.id }));
      },
    }),
  );
  const measured = measureRatio(asked);
  const figure = figures.data?.find((one) => one.ratio === asked.key);
  const { key: ratio, placing, sizeMillimetres, setting } = asked;
  return (
    <>
      {'undefined' in measured ? (
        measured.undefined === 'two landmarks coincide' && <p role="alert">Two places lie on one spot. Set one of them again.</p>
      ) : (
        <div className={styles.result} role="status">
          <p className={styles.sentence}>{ratioSentence(ratio, measured)}</p>
          {figure && <p>{ratioPrompt(ratio, measured, figureBand([figure.low, figure.high]))}</p>}
          <p className="small">A prompt to look again, not a score. Landmark error, turn of the body and camera height are allowed for as set above.</p>
          <Button tone="main" busy={keep.isPending} onClick={() => keep.mutate({ id: evaluation.id, photoId: photo.id, measurementId: freshId(), measurement: { ratio, placing, sizeMillimetres, setting: { ...setting } } })}>
            Keep this reading
          </Button>
        </div>
      )}
      <Refusal error={keep.error} />
      <MeasurementList evaluation={evaluation} photo={photo} measurements={marks.measurements} ratio={ratio} />
      <BreedFigurePart evaluation={evaluation} ratio={ratio} confirmed={figure} />
    </>
  );
}
