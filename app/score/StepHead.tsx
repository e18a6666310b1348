import type { Scoring } from './useScoring';
import { placeWords } from './placeWords';
import { stepGroup, stepTitle, type Step } from './steps';
import { StepAnchors } from './StepAnchors';
import { StepPath } from './StepPath';
import styles from './StepHead.module.css';
import type { StepWork } from './useStepWork';

type Props = { readonly scoring: Scoring; readonly work: StepWork; readonly step: Step; readonly subject: string };

/** What is asked: where one is, from where one looks, the name, what stands, and what the ends of the scale mean. */
export function StepHead({ scoring, work, step, subject }: Props) {
  const said = placeWords(scoring, step, subject);
  return (
    <div className={styles.head}>
      <StepPath work={work} subject={subject} answers={scoring.answers} />
      <p className={styles.from}>
        {scoring.round.cells === null ? '' : 'Second round · '}
        {stepGroup(step)}
        {manner(step)}
      </p>
      <h2 className={styles.title}>{stepTitle(step)}</h2>
      <p className={styles.said} data-place={said?.place}>
        {said === null ? 'Nothing said yet' : said.words}
      </p>
      <StepAnchors step={step} scale={scoring.evaluation.sheet.scale} />
    </div>
  );
}

function manner(step: Step): string {
  switch (step.kind) {
    case 'score':
      return step.criterion.twoSided ? ' · what is asked lies in the middle' : '';
    case 'free':
      return ' · optional: as it stands by itself';
    case 'check':
      return ' · never added to a score';
    case 'day':
      return ' · how it went';
    case 'overall':
      return ' · stays outside merit';
  }
}
