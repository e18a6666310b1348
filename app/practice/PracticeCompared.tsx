import type { EvaluationView } from '#lib/contract/evaluationView';
import { practicePictures } from '#lib/evaluation/practicePictures';
import type { PracticePicture, PracticeView } from '#lib/contract/practice';
import type { Criterion } from '#lib/sheet/criterion';
import { ScoreStrip, type StripDot } from '../_parts/ScoreStrip';
import { facesOf } from '../board/facesOf';
import { stripScale } from '../board/stripScale';
import { DrawnPuppy } from './DrawnPuppy';
import styles from './Practice.module.css';
import { pictureWords } from './pictureWords';
import { practiceShapes } from './practicePuppies';

type ComparedProps = { readonly evaluation: EvaluationView; readonly practice: PracticeView };
type Card = { readonly seat: string | null; readonly own: boolean; readonly answers: NonNullable<PracticeView['own']> };

/** One's own practice beside the others' who have locked: where the same picture got different numbers is worth a word before the day. */
export function PracticeCompared({ evaluation, practice }: ComparedProps) {
  const others = practice.others ?? [];
  const cards: Card[] = [
    { seat: evaluation.viewer.seatId, own: true, answers: practice.own ?? [] },
    ...others.map((card) => ({ ...card, own: false })),
  ];
  return (
    <div className={styles.practice}>
      <h2>Practice, compared</h2>
      <p>
        {others.length === 0
          ? 'Nobody else has locked yet. This page fills as they do.'
          : 'Where the same picture got different numbers, settle before the day what the words of the sheet mean. Nothing here counts.'}
      </p>
      {practicePictures.map((picture) => (
        <section key={picture} aria-label={pictureWords[picture]} className={styles.one}>
          <h3>{pictureWords[picture]}</h3>
          <DrawnPuppy picture={picture} label={`${pictureWords[picture]}, set up, seen from its right side`} />
          <p className="small">
            Drawn {practiceShapes[picture].lengthHeight.toFixed(2)} times as long (point of shoulder to point of buttock) as it is high at the withers.
          </p>
          {practice.criteria.map((key) => {
            const criterion = evaluation.sheet.criteria.find((one) => one.key === key);
            return criterion ? <ComparedCriterion key={key} {...{ criterion, picture, evaluation, cards }} /> : null;
          })}
        </section>
      ))}
    </div>
  );
}

type CriterionProps = { readonly criterion: Criterion; readonly picture: PracticePicture; readonly evaluation: EvaluationView; readonly cards: readonly Card[] };

function ComparedCriterion({ criterion, picture, evaluation, cards }: CriterionProps) {
  const faces = facesOf(evaluation);
  const dots = cards.flatMap(({ seat, own, answers }, at): StripDot[] => {
    const answer = answers.find((one) => one.picture === picture && one.criterion === criterion.key);
    if (!answer || answer.value === null) return [];
    return [{ seat: seat ?? String(at), position: faces.seat(seat)?.position ?? 0, label: own ? 'you' : faces.seatLabel(seat), value: answer.value }];
  });
  return (
    <div className={styles.asked}>
      <h4>{criterion.name}</h4>
      <ScoreStrip scale={stripScale(criterion, evaluation.sheet)} dots={dots} cannotJudge={[]} subject={`${pictureWords[picture]}, ${criterion.name}`} room={2} />
      <p className="small">{dots.length === 0 ? 'Nobody answered this.' : dots.map(({ label, value }) => `${label} ${value}`).join(', ')}</p>
    </div>
  );
}
