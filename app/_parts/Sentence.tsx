import type { ReactNode } from 'react';
import styles from './Sentence.module.css';

/** The plain sentence that comes before a picture. */
export function Sentence({ children }: { readonly children: ReactNode }) {
  return <p className={styles.sentence}>{children}</p>;
}
