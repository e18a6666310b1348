'use client';

import type { ComponentProps } from 'react';
import styles from './Button.module.css';

type ButtonProps = Omit<ComponentProps<'button'>, 'className'> & {
  /** `main` for the one thing to do next, `stop` for what cannot be taken back, `quiet` for small things beside a line. */
  readonly tone?: 'plain' | 'main' | 'stop' | 'quiet';
  /** While its request is under way: says so, and takes no second press. */
  readonly busy?: boolean;
};

export function Button({ tone = 'plain', busy = false, disabled, type = 'button', children, ...rest }: ButtonProps) {
  return (
    <button {...rest} type={type} disabled={disabled === true || busy} aria-busy={busy || undefined} className={`${styles.button} ${styles[tone]}`}>
      {children}
    </button>
  );
}
