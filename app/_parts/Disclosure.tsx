import type { ReactNode } from 'react';
import styles from './Disclosure.module.css';

type DisclosureProps = {
  readonly words: string;
  /** Open from the start. */
  readonly open?: boolean;
  readonly children: ReactNode;
};

/** Something more behind one press. */
export function Disclosure({ words, open = false, children }: DisclosureProps) {
  return (
    <details open={open}>
      <summary>{words}</summary>
      <div className={styles.inside}>{children}</div>
    </details>
  );
}
