'use client';

import { useState } from 'react';
import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { DataTable } from '../_parts/DataTable';
import { Disclosure } from '../_parts/Disclosure';
import { ScoreStrip } from '../_parts/ScoreStrip';
import { SeatShape } from '../_parts/SeatShape';
import { counted } from '../_parts/textWords';
import { CountsTable } from '../_result/CountsTable';
import { bandWords, type CriterionResult, pairsWithinOne, spreadWords } from '../_result/ResultTables';
import { scoreWords, stripScale } from '../_result/scoreWords';
import styles from './board.module.css';

type CriterionProps = {
  readonly criterion: Criterion;
  readonly result: CriterionResult;
  readonly faces: Faces;
};

/** One criterion: how far apart the seats are, in words, beside their scores of the chosen puppy. Opens to all puppies. */
export function CriterionRow({ puppyId, ...props }: CriterionProps & { readonly puppyId: string }) {
  const [open, setOpen] = useState(false);
  const { criterion, result, faces } = props;
  const { sheet } = useEvaluation();
  return (
    <div className={`stack centred ${styles.row}`}>
      <div className="stack starts">
        <button
          type="button"
          className={`touch bare ${styles.name}`}
          aria-expanded={open}
          onClick={() => setOpen(!open)}
        >
          {criterion.name}
          <span className="aloud"> for all puppies</span>
        </button>
        <p className={`small figures wrap ${styles.apart}`}>
          {spreadWords(result)}
          <span>
            agreement <b>{bandWords[result.band]}</b>
          </span>
        </p>
      </div>
      <PuppyStrip criterion={criterion} result={result} puppyId={puppyId} sheet={sheet} faces={faces} />
      {open ? (
        <div className="whole">
          <CriterionDetail {...props} />
        </div>
      ) : null}
    </div>
  );
}

/** One criterion over the whole litter: a small strip for every puppy, and the table of puppies and seats. */
function CriterionDetail({ criterion, result, faces }: CriterionProps) {
  const evaluation = useEvaluation();
  const seats = evaluation.seats.filter((seat) => result.dots.some((dot) => dot.seat === seat.id));
  const puppies = evaluation.puppies.filter((puppy) => result.dots.some((dot) => dot.puppy === puppy.id));
  const room = Math.max(1, ...puppies.map((puppy) => mostAlike(result.dots.filter((dot) => dot.puppy === puppy.id))));
  return (
    <div className={`stack gap-10 ${styles.detail}`}>
      <p className="small figures">
        {result.withinOne === null
          ? ''
          : `Of the scores two seats gave one puppy, ${pairsWithinOne(result.withinOne)} lie within one point. `}
        {criterion.steadiness.note}
      </p>
      <ul className={`list grid ${styles.strips}`}>
        {puppies.map((puppy) => (
          <li key={puppy.id}>
            <b>{puppy.name}</b>
            <PuppyStrip
              criterion={criterion}
              result={result}
              puppyId={puppy.id}
              sheet={evaluation.sheet}
              faces={faces}
              width={240}
              room={room}
            />
          </li>
        ))}
      </ul>
      <Disclosure words="The same as a table">
        {result.dots.some(({ seat }) => seat === null) ? (
          <CountsTable
            caption={`${criterion.name}: seats by score`}
            puppies={puppies}
            answers={result.dots}
            scale={stripScale(criterion, evaluation.sheet)}
          />
        ) : (
          <DataTable
            figures
            caption={`${criterion.name}: scores by seat`}
            heads={['Puppy', ...seats.map((seat) => seat.label)]}
            rows={puppies.map((puppy) => ({
              key: puppy.id,
              head: puppy.name,
              cells: seats.map((seat) =>
                scoreWords(
                  criterion,
                  result.dots.find((dot) => dot.puppy === puppy.id && dot.seat === seat.id),
                ),
              ),
            }))}
          />
        )}
      </Disclosure>
    </div>
  );
}

/** How many seats gave the commonest score. */
function mostAlike(dots: readonly { readonly value: number | null }[]): number {
  return Math.max(
    0,
    ...dots.map(({ value }) => (value === null ? 0 : dots.filter((dot) => dot.value === value).length)),
  );
}

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
    .map(({ seat, value }, at) => ({
      seat: seat ?? String(at),
      value,
      label: faces.seatLabel(seat),
      position: faces.seat(seat)?.position ?? 0,
    }))
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
        <p className={`small wrap ${styles.without}`}>
          Cannot judge:{countsOnly ? ` ${counted(without.length, 'seat')}` : ''}
          {(countsOnly ? [] : without).map(({ seat, label, position }) => (
            <span key={seat} className="unbroken">
              <SeatShape position={position} size={13} /> {label}
            </span>
          ))}
        </p>
      ) : null}
      {given.length === 0 ? <p className="small">No seat scored this.</p> : null}
    </div>
  );
}
