'use client';

import { useQuery } from '@tanstack/react-query';
import Link from 'next/link';
import { useTRPC } from '../_data/trpc';
import styles from './DemoBar.module.css';

/** Says on every page of the demo that it is the demo, on paper as well. Draws nothing anywhere else. */
export function DemoBar() {
  const trpc = useTRPC();
  const me = useQuery(trpc.session.me.queryOptions());
  if (!me.data?.demo) return null;
  return (
    <aside aria-label="Demo" className={`wrap centred between ${styles.bar}`}>
      <p>
        <strong>Demo.</strong> Nothing here is real.
      </p>
      <Link href="/demo" className={`touch unprinted ${styles.way}`}>
        About the demo
      </Link>
    </aside>
  );
}
