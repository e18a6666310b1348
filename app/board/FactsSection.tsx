import type { SectionProps } from './AgreementSection';
import { dayLines } from './dayLines';
import styles from './FactsSection.module.css';
import { momentWords } from './momentWords';
import { PromisedPart } from './PromisedPart';

/** What this result rests on: what it was blind to, what was unfair, late or unlocked, and the engine. Always shown. */
export function FactsSection({ evaluation, board, faces }: SectionProps) {
  return (
    <section aria-labelledby="facts" className={styles.section}>
      <h2 id="facts">What this result rests on</h2>
      <h3>Blind to</h3>
      <ul className={styles.lines}>
        {board.blindTo.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <PromisedPart evaluation={evaluation} board={board} faces={faces} />
      <h3>On the day</h3>
      <ul className={styles.lines}>
        {dayLines(board, faces, evaluation.plan).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="small figures">
        Revealed {momentWords(board.revealedAt)} · engine version {board.engineVersion}
      </p>
    </section>
  );
}
