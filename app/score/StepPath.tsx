import type { OwnAnswer } from '#lib/evaluation/ownAnswers';
import { isAnswered } from './steps';
import styles from './StepHead.module.css';
import type { StepWork } from './useStepWork';

type Props = { readonly work: StepWork; readonly subject: string; readonly answers: ReadonlyMap<string, OwnAnswer> };

/** Progress through this puppy: a stroke for each question, filled when answered, tall where one is. */
export function StepPath({ work, subject, answers }: Props) {
  const { steps, index } = work;
  const width = 100 / steps.length;
  return (
    <div className={styles.progress}>
      <svg className={styles.path} viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
        {steps.map((step, place) => (
          <rect
            key={place}
            x={place * width}
            y={place === index ? 0 : 2.5}
            width={width * 0.72}
            height={place === index ? 10 : 5}
            className={place === index ? styles.here : isAnswered(step, subject, answers) ? styles.done : styles.open}
          />
        ))}
      </svg>
      <span className="figures">
        <span className="aloud">question </span>
        {Math.min(index + 1, steps.length)} of {steps.length}
      </span>
    </div>
  );
}
