import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Measurement, PhotoFace } from '#lib/contract/photo';
import { measureRatio } from '#lib/photo/measureRatio';
import { placingAgreement, type PlacingAgreement } from '#lib/photo/placingAgreement';
import type { RatioKey } from '#lib/photo/ratio';
import { counted } from '../_parts/counted';
import styles from './CloseUp.module.css';
import { heldWords, seatWords } from './seatWords';

type Props = { readonly evaluation: EvaluationView; readonly photo: PhotoFace; readonly measurements: readonly Measurement[]; readonly ratio: RatioKey };

/** Readings of this ratio on this picture: one's own, and after reveal every seat's with how far they lie apart. */
export function MeasurementList({ evaluation, photo, measurements, ratio }: Props) {
  const readings = measurements
    .filter((one) => one.photoId === photo.id && one.ratio === ratio)
    .flatMap(({ id, seat, blind, placing, sizeMillimetres, setting }) => {
      const measured = measureRatio({ key: ratio, placing, size: photo, sizeMillimetres, setting });
      return 'undefined' in measured ? [] : [{ id, seat, blind, measured }];
    });
  if (readings.length === 0) return null;
  const held = heldWords(evaluation, 'readings');
  const seats = [...new Set(readings.map((one) => one.seat))];
  const agreement = placingAgreement(seats.map((seat) => ({ seat, values: readings.filter((one) => one.seat === seat).map((one) => one.measured.value) })));
  return (
    <section aria-label="Readings kept">
      <h3>Readings kept</h3>
      <ul className={styles.lines}>
        {readings.map(({ id, seat, blind, measured: { value, low, high } }) => (
          <li key={id} className="figures">
            {seatWords(evaluation, seat) || 'You'}: {value.toFixed(2)} ({low.toFixed(2)} to {high.toFixed(2)}){blind ? '' : ', not blind'}
          </li>
        ))}
      </ul>
      {agreement && <p className="small">{agreementWords(agreement)}</p>}
      {readings.some((one) => !one.blind) && <p className="small">Not blind: placed after the reveal had shown this seat what the others scored.</p>}
      {held === null ? null : <p className="small">{held}</p>}
    </section>
  );
}

const points = (value: number): string => counted(Math.round(value), 'point');

function agreementWords({ seats, median, between, within }: PlacingAgreement): string {
  const apart = between === null ? 'One seat has measured it.' : `${counted(seats, 'seat')}: middle ${median.toFixed(2)}, highest and lowest ${points(between)} apart.`;
  const repeated = within === null ? '' : ` Placed again by the same seat: ${points(within)} apart at most.`;
  return `${apart}${repeated} A point is a hundredth of the ratio.`;
}
