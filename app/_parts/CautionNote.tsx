import { type CautionKey, cautions } from '#lib/sheet/cautions';
import styles from './CautionNote.module.css';

/** One caution in the sheet's own words, where it matters. */
export function CautionNote({ caution }: { readonly caution: CautionKey }) {
  const { title, text } = cautions[caution];
  return (
    <div role="note" className={`warned text ${styles.caution}`}>
      <p className={styles.title}>{title}</p>
      <p>{text}</p>
    </div>
  );
}
