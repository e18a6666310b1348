'use client';

import { type ReactNode, useState } from 'react';
import styles from './Disclosure.module.css';

type DisclosureProps = {
  /** What stands on the line to press. */
  readonly words: ReactNode;
  /** Open from the start. */
  readonly open?: boolean;
  /** Drawn, and so fetched, only once it is opened. */
  readonly lazy?: boolean;
  /** Without room around what is inside. */
  readonly bare?: boolean;
  readonly className?: string | undefined;
  readonly children: ReactNode;
};

/** Something more behind one press. */
export function Disclosure({ words, open = false, lazy = false, bare = false, className, children }: DisclosureProps) {
  const [opened, setOpened] = useState(open);
  const inside = lazy && !opened ? null : children;
  return (
    <details
      open={open}
      className={className}
      onToggle={lazy ? (event) => setOpened(event.currentTarget.open) : undefined}
    >
      <summary>{words}</summary>
      {bare ? inside : <div className={`stack gap-20 ${styles.inside}`}>{inside}</div>}
    </details>
  );
}
