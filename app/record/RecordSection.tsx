import type { ReactNode } from 'react';
import styles from './record.module.css';

/** One part of the record under its heading. */
export function RecordSection({
  id,
  title,
  children,
}: {
  readonly id: string;
  readonly title: string;
  readonly children: ReactNode;
}) {
  return (
    <section aria-labelledby={id} className={`stack reads gap-12 ${styles.section}`}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}
