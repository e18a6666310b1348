'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { BreedFigureInput, Measurement, PhotoFace } from '#lib/contract/photo';
import { measureRatio, ratioPrompt, type RatioQuestion, ratioSentence } from '#lib/photo/measureRatio';
import { placingAgreement, type PlacingAgreement } from '#lib/photo/placing';
import type { RatioKey } from '#lib/photo/ratio';
import { figureBand, figuresOfBreed } from '#lib/sheet/breedProportions';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { counted } from '../_parts/textWords';
import { FieldNumber } from './FieldNumber';
import styles from './photos.module.css';
import { heldWords, seatWords, type ToolProps } from './useMarks';

type Props = ToolProps & { readonly asked: RatioQuestion; readonly onKept: () => void };

/** The ratio with its range, what it is beside the breed's published figure, and what the seats found. A prompt, never a score. */
export function MeasureResult({ photo, marks, asked, onKept }: Props) {
  const evaluation = useEvaluation();
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
        measured.undefined === 'two landmarks coincide' ? (
          <p role="alert">Two places lie on one spot. Set one of them again.</p>
        ) : null
      ) : (
        <div className={`stack starts gap-8 ${styles.result}`} role="status">
          <p className={styles.sentence}>{ratioSentence(ratio, measured)}</p>
          {figure ? <p>{ratioPrompt(ratio, measured, figureBand([figure.low, figure.high]))}</p> : null}
          <p className="small">
            A prompt to look again, not a score. Landmark error, turn of the body and camera height are allowed for as
            set above.
          </p>
          <Button
            tone="main"
            busy={keep.isPending}
            onClick={() =>
              keep.mutate({
                id: evaluation.id,
                photoId: photo.id,
                measurementId: freshId(),
                measurement: { ratio, placing, sizeMillimetres, setting: { ...setting } },
              })
            }
          >
            Keep this reading
          </Button>
        </div>
      )}
      <Refusal error={keep.error} />
      <MeasurementList photo={photo} measurements={marks.measurements} ratio={ratio} />
      <BreedFigurePart ratio={ratio} confirmed={figure} />
    </>
  );
}

type MeasurementListProps = {
  readonly photo: PhotoFace;
  readonly measurements: readonly Measurement[];
  readonly ratio: RatioKey;
};

/** Readings of this ratio on this picture: one's own, and after reveal every seat's with how far they lie apart. */
function MeasurementList({ photo, measurements, ratio }: MeasurementListProps) {
  const evaluation = useEvaluation();
  const readings = measurements
    .filter((one) => one.photoId === photo.id && one.ratio === ratio)
    .flatMap(({ id, seat, blind, placing, sizeMillimetres, setting }) => {
      const measured = measureRatio({ key: ratio, placing, size: photo, sizeMillimetres, setting });
      return 'undefined' in measured ? [] : [{ id, seat, blind, measured }];
    });
  if (readings.length === 0) return null;
  const held = heldWords(evaluation, 'readings');
  const seats = [...new Set(readings.map((one) => one.seat))];
  const agreement = placingAgreement(
    seats.map((seat) => ({
      seat,
      values: readings.filter((one) => one.seat === seat).map((one) => one.measured.value),
    })),
  );
  return (
    <section aria-label="Readings kept">
      <h3>Readings kept</h3>
      <ul className={`list lined stack gap-4 ${styles.lines}`}>
        {readings.map(({ id, seat, blind, measured: { value, low, high } }) => (
          <li key={id} className="figures">
            {seatWords(evaluation, seat) || 'You'}: {value.toFixed(2)} ({low.toFixed(2)} to {high.toFixed(2)})
            {blind ? '' : ', not blind'}
          </li>
        ))}
      </ul>
      {agreement ? <p className="small">{agreementWords(agreement)}</p> : null}
      {readings.some((one) => !one.blind) ? (
        <p className="small">Not blind: placed after the reveal had shown this seat what the others scored.</p>
      ) : null}
      {held === null ? null : <p className="small">{held}</p>}
    </section>
  );
}

const points = (value: number): string => counted(Math.round(value), 'point');

function agreementWords({ seats, median, between, within }: PlacingAgreement): string {
  const apart =
    between === null
      ? 'One seat has measured it.'
      : `${counted(seats, 'seat')}: middle ${median.toFixed(2)}, highest and lowest ${points(between)} apart.`;
  const repeated = within === null ? '' : ` Placed again by the same seat: ${points(within)} apart at most.`;
  return `${apart}${repeated} A point is a hundredth of the ratio.`;
}

type BreedFigurePartProps = { readonly ratio: RatioKey; readonly confirmed: BreedFigureInput | undefined };

/** What the breed's standard gives for this ratio, with its measuring points and source; used once the owner has confirmed it. */
function BreedFigurePart({ ratio, confirmed }: BreedFigurePartProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const confirm = useMutation(
    trpc.photo.confirmFigure.mutationOptions({
      onSuccess: () => queries.invalidateQueries(trpc.photo.figures.queryFilter({ id: evaluation.id })),
    }),
  );
  const known = figuresOfBreed(evaluation.breed);
  const save = (figure: BreedFigureInput) => confirm.mutate({ id: evaluation.id, figure });
  return (
    <Disclosure bare words="What the breed’s standard says">
      <div className="stack gap-10">
        <p className="small">
          Published figures describe grown dogs, and standards differ in their measuring points. Hold them against the
          current edition of your own kennel organisation.
        </p>
        {confirmed ? (
          <p>
            Confirmed: {confirmed.low.toFixed(2)} to {confirmed.high.toFixed(2)}, {confirmed.source}
          </p>
        ) : null}
        {known.length === 0 ? (
          <p>No published figure is noted here for {evaluation.breed === '' ? 'this breed' : evaluation.breed}.</p>
        ) : null}
        <ul className={`list lined stack gap-4 ${styles.lines}`}>
          {known.map(({ words, source, basis, ratio: of, published }) => (
            <li key={`${source} ${words}`}>
              <span>
                {words}{' '}
                <span className="small">
                  {source}; {basis === 'read' ? 'read in a copy of the standard' : 'from memory, not checked'}.
                </span>
              </span>
              {evaluation.viewer.owner && published && of === ratio ? (
                <Button
                  tone="quiet"
                  busy={confirm.isPending}
                  onClick={() => save({ ratio, low: published[0], high: published[1], source })}
                >
                  Confirm<span className="aloud">: {words}</span>
                </Button>
              ) : null}
            </li>
          ))}
        </ul>
        <Refusal error={confirm.error} />
        {evaluation.viewer.owner ? <OwnFigure ratio={ratio} onSave={save} busy={confirm.isPending} /> : null}
      </div>
    </Disclosure>
  );
}

function OwnFigure({
  ratio,
  onSave,
  busy,
}: {
  readonly ratio: RatioKey;
  readonly onSave: (figure: BreedFigureInput) => void;
  readonly busy: boolean;
}) {
  const [low, setLow] = useState(1);
  const [high, setHigh] = useState(1);
  const [source, setSource] = useState('');
  const sound = low <= high && source.trim() !== '';
  return (
    <fieldset className={`stack gap-10 ${styles.own}`}>
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
