import { spokenNameLength } from '#lib/access/spokenCode';
import styles from './ShownCode.module.css';
import { clockWords } from './timeWords';

type ShownCodeProps = {
  readonly code: string;
  readonly expiresAt: number;
  /** It only lets a device ask: the first one has to let it in. */
  readonly further: boolean;
};

/** A spoken code, large enough to be read out from across the table, the evaluation's name first, then two halves of four. */
export function ShownCode({ code, expiresAt, further }: ShownCodeProps) {
  return (
    <div className={`key stack gap-8 ${styles.shown}`}>
      <p className={`wrap ${styles.code}`} aria-label={`Code ${Array.from(code).join(' ')}`}>
        <span>{code.slice(0, spokenNameLength)}</span> <span>{code.slice(spokenNameLength, -4)}</span>{' '}
        <span>{code.slice(-4)}</span>
      </p>
      <p className="small figures">
        Works once, until {clockWords(expiresAt)}, on the page /join.{' '}
        {further
          ? 'Whoever types it still has to be let in by the first device.'
          : 'Whoever types it first takes this seat: read it to nobody else.'}
      </p>
    </div>
  );
}
