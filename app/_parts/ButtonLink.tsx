import Link from 'next/link';
import type { ReactNode } from 'react';
import styles from './Button.module.css';

type ButtonLinkProps = { readonly href: string; readonly tone?: 'plain' | 'main' | 'quiet'; readonly children: ReactNode };

/** A way to another page that is the thing to do next. */
export function ButtonLink({ href, tone = 'plain', children }: ButtonLinkProps) {
  return (
    <Link href={href} className={`${styles.button} ${styles[tone]}`}>
      {children}
    </Link>
  );
}
