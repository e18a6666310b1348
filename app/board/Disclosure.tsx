import type { ReactNode } from 'react';
import styles from './Disclosure.module.css';

/** Something more behind one press; open in print. */
export function Disclosure({ words, children }: { readonly words: string; readonly children: ReactNode }) {
  return (
    <details className={styles.more}>
      <summary className={styles.words}>{words}</summary>
      <div className={styles.inside}>{children}</div>
    </details>
  );
}
