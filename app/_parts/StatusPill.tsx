import type { ReactNode } from 'react';
import styles from './StatusPill.module.css';

type Props = {
  /** calm: all is well. note: something waits. stop: something is wrong and will not mend by itself. */
  readonly tone: 'calm' | 'note' | 'stop';
  readonly children: ReactNode;
};

const signs = { calm: 'M2 7.5 5 10.5 11 3', note: 'M6.5 2 12 11.5 1 11.5Z', stop: 'M2 2H11V11H2Z' } as const;

/** A short standing truth, in words, with a sign so that colour is never alone. */
export function StatusPill({ tone, children }: Props) {
  return (
    <span className={`figures ${styles.pill} tone-${tone}`}>
      <svg
        width="13"
        height="13"
        viewBox="0 0 13 13"
        aria-hidden="true"
        fill={tone === 'calm' ? 'none' : 'currentColor'}
        stroke="currentColor"
        strokeWidth={tone === 'calm' ? 2.2 : 0}
      >
        <path d={signs[tone]} />
      </svg>
      <span>{children}</span>
    </span>
  );
}
