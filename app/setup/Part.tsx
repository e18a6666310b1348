import { type ReactNode, useId } from 'react';
import styles from './setup.module.css';

type PartProps = { readonly title: string; readonly note?: string | undefined; readonly children: ReactNode };

/** One part of the set-up: its heading and what it is for at the side, its fields beside that. */
export function Part({ title, note, children }: PartProps) {
  const id = useId();
  return (
    <section aria-labelledby={id} className={`stack topped ${styles.part}`}>
      <div className="stack upright gap-6">
        <h2 id={id}>{title}</h2>
        {note ? <p className="small">{note}</p> : null}
      </div>
      <div className={`stack gap-16 ${styles.body}`}>{children}</div>
    </section>
  );
}
