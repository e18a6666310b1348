import type { ReactNode } from 'react';
import styles from './StatusPill.module.css';

type Props = {
  /** calm: all is well. note: something waits. stop: something is wrong and will not mend by itself. */
  readonly tone: 'calm' | 'note' | 'stop';
  readonly children: ReactNode;
};

const signs = { calm: '✓', note: '▲', stop: '■' } as const;

/** A short standing truth, in words, with a sign so that colour is never alone. */
export function StatusPill({ tone, children }: Props) {
  return (
    <span className={`${styles.pill} ${styles[tone]}`}>
      <span aria-hidden="true">{signs[tone]}</span>
      <span>{children}</span>
    </span>
  );
}
