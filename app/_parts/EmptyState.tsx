import type { ReactNode } from 'react';
import styles from './EmptyState.module.css';

type EmptyStateProps = {
  readonly title: string;
  /** What will stand here and how it gets here; with a link or button to do it. */
  readonly children: ReactNode;
};

/** Nothing here yet, in words, with what to do next. */
export function EmptyState({ title, children }: EmptyStateProps) {
  return (
    <div className={`stack starts text gap-12 ${styles.empty}`}>
      <p className={styles.title}>{title}</p>
      {children}
    </div>
  );
}
