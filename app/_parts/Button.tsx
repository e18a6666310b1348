'use client';

import Link from 'next/link';
import type { ComponentProps, ReactNode } from 'react';
import styles from './Button.module.css';
import { useSettled } from './useSettled';

type ButtonProps = Omit<ComponentProps<'button'>, 'className'> & {
  /** `main` for the one thing to do next, `stop` for what cannot be taken back, `quiet` for small things beside a line. */
  readonly tone?: 'plain' | 'main' | 'stop' | 'quiet';
  /** While its request is under way: says so, and takes no second press. */
  readonly busy?: boolean;
  /** Names what the press is about, where that can change by itself: after a change it takes no press for a moment. */
  readonly about?: string | undefined;
};

/** Longer than a double tap: the second half of the press that asked must not be the answer. */
const unripeMs = 600;

export function Button({
  tone = 'plain',
  busy = false,
  about = '',
  disabled,
  type = 'button',
  children,
  onClick,
  ...rest
}: ButtonProps) {
  const stands = `${tone === 'stop' ? tone : ''} ${about}`;
  const settled = useSettled(stands, unripeMs, tone === 'stop' ? '' : stands);
  return (
    <button
      {...rest}
      type={type}
      disabled={disabled === true || busy}
      aria-disabled={settled ? undefined : true}
      aria-busy={busy || undefined}
      className={`${styles.button} ${styles[tone]}`}
      onClick={settled ? onClick : (event) => event.preventDefault()}
    >
      {children}
    </button>
  );
}

type ButtonLinkProps = {
  readonly href: string;
  readonly tone?: 'plain' | 'main' | 'quiet';
  readonly children: ReactNode;
};

/** A way to another page that is the thing to do next. */
export function ButtonLink({ href, tone = 'plain', children }: ButtonLinkProps) {
  return (
    <Link href={href} className={`${styles.button} ${styles[tone]}`}>
      {children}
    </Link>
  );
}
