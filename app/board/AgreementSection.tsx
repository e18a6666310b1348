'use client';

import { useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import { views } from '#lib/sheet/criterion';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { FieldChoice } from '../_parts/FieldChoice';
import { SeatShape } from '../_parts/SeatShape';
import { seatKindWords, viewWords } from '../_parts/textWords';
import { AgreementTable, byPurpose } from '../_result/ResultTables';
import { CoefficientsDrawer } from './CoefficientsDrawer';
import { CriterionRow } from './CriterionRow';
import styles from './board.module.css';

export type SectionProps = { readonly board: BoardView; readonly faces: Faces };

/** How far the seats agree, criterion by criterion, in points first; the coefficients are behind a drawer. */
export function AgreementSection({ board, faces }: SectionProps) {
  const evaluation = useEvaluation();
  const first = byPurpose(board.purposes)[0]?.merit[0]?.puppy ?? evaluation.puppies[0]?.id ?? '';
  const [puppyId, setPuppyId] = useState(first);
  const [drawer, setDrawer] = useState(false);
  const results = new Map(board.criteria.map((one) => [one.criterion, one]));
  return (
    <section aria-labelledby="agreement" className="stack gap-14">
      <h2 id="agreement">How far the panel agrees</h2>
      <p className="text">
        Each line shows what the seats gave one puppy. “Points apart” is from the lowest to the highest seat, the mean
        over all puppies. The word for agreement is decided on an interval: a litter is small, so it often says too few
        data.
      </p>
      <div className={`wrap ${styles.choose}`}>
        <FieldChoice
          label="Show the scores of"
          value={puppyId}
          options={evaluation.puppies.map(({ id, name }) => ({ key: id, words: name }))}
          onChange={setPuppyId}
        />
        <Button onClick={() => setDrawer(true)}>Coefficients</Button>
      </div>
      {board.anonymous ? (
        <p className="small">Each mark is one seat; the marks say nothing of which.</p>
      ) : (
        <SeatLegend />
      )}
      <div className={styles.views}>
        {views.map((view) => {
          const criteria = evaluation.sheet.criteria.filter((criterion) => criterion.view === view);
          if (criteria.length === 0) return null;
          return (
            <div key={view} className={styles.view}>
              <h3>{viewWords[view]}</h3>
              {criteria.map((criterion) => {
                const result = results.get(criterion.key);
                return result ? (
                  <CriterionRow
                    key={criterion.key}
                    criterion={criterion}
                    result={result}
                    faces={faces}
                    puppyId={puppyId}
                  />
                ) : null;
              })}
            </div>
          );
        })}
      </div>
      <Disclosure words="All criteria as a table">
        <AgreementTable board={board} faces={faces} />
      </Disclosure>
      {drawer ? <CoefficientsDrawer faces={faces} onClose={() => setDrawer(false)} /> : null}
    </section>
  );
}

/** Which shape stands for which seat. */
function SeatLegend() {
  const evaluation = useEvaluation();
  return (
    <ul className={`list wrap ${styles.legend}`} aria-label="Seats and their shapes">
      {evaluation.seats
        .filter((seat) => seat.kind !== 'none')
        .map((seat) => (
          <li key={seat.id}>
            <SeatShape position={seat.position} label={seat.label} /> {seat.label}, {seatKindWords[seat.kind]}
          </li>
        ))}
    </ul>
  );
}
