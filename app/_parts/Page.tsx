import type { ReactNode } from 'react';
import styles from './Page.module.css';

type PageProps = {
  /** `wide` for tables and pictures, `text` for forms and reading. */
  readonly width?: 'wide' | 'text';
  readonly children: ReactNode;
};

/** The main part of a desk page, under its PageHead. */
export function Page({ width = 'wide', children }: PageProps) {
  return <main className={`stack gap-32 ${styles.page} ${styles[width]}`}>{children}</main>;
}
