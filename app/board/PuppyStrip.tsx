import type { BoardView } from '#lib/contract/boardView';
import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { ScoreStrip } from '../_parts/ScoreStrip';
import { counted } from '../_parts/counted';
import { SeatShape } from '../_parts/SeatShape';
import type { Faces } from './facesOf';
import styles from './PuppyStrip.module.css';
import { stripScale } from './stripScale';

export type CriterionResult = BoardView['criteria'][number];

type PuppyStripProps = {
  readonly criterion: Criterion;
  readonly result: CriterionResult;
  readonly puppyId: string;
  readonly sheet: Sheet;
  readonly faces: Faces;
  readonly width?: number;
  /** Equal scores there is room for. */
  readonly room?: number;
};

/** Every seat's score of one puppy on one criterion, and who could not judge it. */
export function PuppyStrip({ criterion, result, puppyId, sheet, faces, width = 340, room = 1 }: PuppyStripProps) {
  const given = result.dots
    .filter((dot) => dot.puppy === puppyId)
    .map(({ seat, value }, at) => ({ seat: seat ?? String(at), value, label: faces.seatLabel(seat), position: faces.seat(seat)?.position ?? 0 }))
    .sort((a, b) => a.position - b.position);
  const dots = given.flatMap(({ value, ...rest }) => (value === null ? [] : [{ ...rest, value }]));
  const without = given.filter(({ value }) => value === null);
  const countsOnly = result.dots.some(({ seat }) => seat === null);
  return (
    <div>
      <ScoreStrip
        scale={stripScale(criterion, sheet)}
        dots={dots}
        cannotJudge={without}
        subject={`${faces.puppyName(puppyId)}, ${criterion.name}`}
        width={width}
        countsOnly={countsOnly}
        room={room}
      />
      {without.length > 0 ? (
        <p className={`small ${styles.without}`}>
          Cannot judge:{countsOnly ? ` ${counted(without.length, 'seat')}` : ''}
          {(countsOnly ? [] : without).map(({ seat, label, position }) => (
            <span key={seat} className={styles.seat}>
              <SeatShape position={position} size={13} /> {label}
            </span>
          ))}
        </p>
      ) : null}
      {given.length === 0 ? <p className="small">No seat scored this.</p> : null}
    </div>
  );
}
