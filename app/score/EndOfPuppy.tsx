import { counted } from '../_parts/counted';
import styles from './EndOfPuppy.module.css';
import { stepTitle } from './steps';
import type { Shown } from './useShowing';
import type { StepWork } from './useStepWork';

/** Past the last question: what is still open, and what happens next. */
export function EndOfPuppy({ shown, work }: { readonly shown: Shown; readonly work: StepWork }) {
  const { missing, steps } = work;
  const name = shown.puppy.name;
  return (
    <div className={styles.end}>
      <h2>{steps.length === 0 ? `Nothing about ${name} is asked of your seat` : missing.length === 0 ? `Everything about ${name} is answered` : `${counted(missing.length, 'question')} about ${name} open`}</h2>
      {missing.length > 0 && <p>An open question is not a fault. If you cannot tell, say so on its keys: that is an answer.</p>}
      <ul className={styles.open}>
        {missing.map((step) => (
          <li key={stepTitle(step)}>
            <button type="button" onClick={() => work.go(steps.indexOf(step))}>
              {stepTitle(step)}
            </button>
          </li>
        ))}
      </ul>
      {shown.table?.showing.id === shown.showing.id && <p className="small">This screen moves on by itself when the next puppy is on the table.</p>}
    </div>
  );
}
