import type { BoardView } from '#lib/contract/boardView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { dayLines } from './dayLines';
import type { Faces } from './facesOf';
import styles from './FactsSection.module.css';
import { momentWords } from './momentWords';
import { PromisedPart } from './PromisedPart';

/** What this result rests on: what it was blind to, what was promised, what was unfair, late or unlocked, and the engine. Always shown. */
export function FactsSection({ evaluation, board, faces }: { readonly evaluation: EvaluationView; readonly board: BoardView; readonly faces: Faces }) {
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
        {dayLines(board, faces).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="small figures">
        Revealed {momentWords(board.revealedAt)} · engine version {board.engineVersion}
      </p>
    </section>
  );
}
