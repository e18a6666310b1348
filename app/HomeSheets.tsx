import Link from 'next/link';
import type { RouterOutputs } from './_parts/routerOutputs';
import { counted } from './_parts/counted';
import styles from './Home.module.css';

/** The sheets to read, copy and change. */
export function HomeSheets({ sheets }: { readonly sheets: RouterOutputs['sheet']['list'] }) {
  return (
    <section className={styles.part}>
      <h2>Sheets</h2>
      <p className="small">A sheet says what is scored, on which scale, in which words. Copy one to make it your own.</p>
      <ul className={styles.list}>
        {sheets.map((one) => (
          <li key={one.id} className={styles.row}>
            <Link href={`/sheet?id=${one.id}`} className={styles.name}>
              {one.name}
            </Link>
            <span className="small figures">
              {counted(one.criteria, 'criterion', 'criteria')} · scores {one.low} to {one.high} · {one.builtIn ? 'comes with Evenstack' : 'your own'}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
