import type { Collar } from '#lib/contract/collar';
import styles from './CollarChip.module.css';
import { CollarMark } from './CollarMark';
import { collarWords } from './collarWords';

type Props = {
  readonly collar: Collar;
  /** Swatch size in pixels. */
  readonly size?: number;
  /** Leave the words out only where they stand beside it already. */
  readonly words?: boolean;
};

/** A collar as a swatch and in words. */
export function CollarChip({ collar, size = 16, words = true }: Props) {
  return (
    <span className={styles.chip}>
      <svg width={size} height={size} viewBox={`0 0 ${size} ${size}`} aria-hidden="true" className={styles.swatch}>
        <CollarMark collar={collar} cx={size / 2} cy={size / 2} radius={size / 2 - 1.5} />
      </svg>
      {words && collarWords(collar)}
    </span>
  );
}
