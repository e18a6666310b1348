import type { BoardMerit } from './MeritPicture';
import type { MeritAxis } from './MeritPictureAxis';
import styles from './MeritPicture.module.css';

/** One puppy's line of the picture. Widths are per cent, so that marks and text keep their size on any screen. */
export function MeritPictureRow({ merit, axis }: { readonly merit: BoardMerit; readonly axis: MeritAxis }) {
  const x = (points: number) => `${axis.at(points)}%`;
  return (
    <svg className={styles.plot} aria-hidden="true">
      {axis.ticks.map(({ value }) => (
        <line key={value} x1={x(value)} x2={x(value)} y1="0" y2="100%" className={value === 0 ? styles.zero : styles.grid} />
      ))}
      <line x1={x(merit.low)} x2={x(merit.high)} y1="15" y2="15" className={styles.whole} />
      <line x1={x(merit.halfLow)} x2={x(merit.halfHigh)} y1="15" y2="15" className={styles.half} />
      <circle cx={x(merit.estimate)} cy="15" r="5.5" className={styles.dot} />
      {merit.mean === null ? null : (
        <svg x={x(merit.mean)} y="26" className={styles.mark}>
          <path d="M0 0l5 9h-10z" className={styles.plain} />
        </svg>
      )}
    </svg>
  );
}
