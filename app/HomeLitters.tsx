'use client';

import Link from 'next/link';
import { useState } from 'react';
import { ageInDays } from '#lib/evaluation/ageInDays';
import type { RouterOutputs } from './_parts/routerOutputs';
import { ButtonLink } from './_parts/ButtonLink';
import { counted } from './_parts/counted';
import { EmptyState } from './_parts/EmptyState';
import { todayHere } from './_parts/todayHere';
import styles from './Home.module.css';

/** The litters with their age today. */
export function HomeLitters({ litters }: { readonly litters: RouterOutputs['litter']['list'] }) {
  const [today] = useState(todayHere);
  return (
    <section className={styles.part}>
      <h2>Litters</h2>
      {litters.length === 0 ? (
        <EmptyState title="No litter yet">
          <p>Dam, sire and whelping date, then the puppies with their collars. Evaluators never see the parents.</p>
        </EmptyState>
      ) : (
        <ul className={styles.list}>
          {litters.map((one) => (
            <li key={one.id} className={styles.row}>
              <Link href={`/litter?id=${one.id}`} className={styles.name}>
                {one.name}
              </Link>
              <span className="small figures">
                {one.breed === '' ? '' : `${one.breed} · `}
                {counted(one.puppies, 'puppy', 'puppies')} · {counted(ageInDays(one.whelpedOn, today), 'day')} old today
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className={styles.actions}>
        <ButtonLink href="/litter">New litter</ButtonLink>
      </div>
    </section>
  );
}
