import { countsOnlyCaution } from '../_parts/countsOnlyCaution';
import styles from './AnonymousLine.module.css';

/** BL9: said at the head of every board that counts only. */
export function AnonymousLine() {
  return <p className={styles.line}>This panel agreed on counts only: no score, note or answer here names its seat. {countsOnlyCaution}</p>;
}
