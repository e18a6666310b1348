import type { EvaluationView } from '#lib/contract/evaluationView';
import styles from './_evaluation.module.css';

/** The record's head in one small line, to be read out and compared from device to device. */
export function RecordHeadLine({ head, beneath = false }: Pick<EvaluationView, 'head'> & { /** Beneath a page, where no page gives it its margins. */ readonly beneath?: boolean }) {
  const line = (
    <p className={`small figures ${styles.head} ${beneath ? styles.beneath : ''}`}>
      Record: line {head.seq}, <code>{head.hash.slice(0, 12)}</code>. The same on every device that is up to date.
    </p>
  );
  return beneath ? <footer>{line}</footer> : line;
}
