import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import styles from './LookOpeningForm.module.css';
import type { Pair } from './pairNotice';

type PairsFormProps = {
  readonly pairs: readonly Pair[];
  readonly puppies: readonly { readonly key: string; readonly words: string }[];
  readonly most: number;
  /** Beside each pair: who stands where. */
  readonly notice: (pair: Pair, at: number) => string;
  readonly onChange: (pairs: readonly Pair[]) => void;
};

/** The pairs of a batch, to change, take away and add to. */
export function PairsForm({ pairs, puppies, most, notice, onChange }: PairsFormProps) {
  const put = (at: number, part: Partial<Pair>) => onChange(pairs.map((pair, index) => (index === at ? { ...pair, ...part } : pair)));
  const spare = firstFree(pairs, puppies.map(({ key }) => key));
  return (
    <>
      <ol className={styles.pairs}>
        {pairs.map((pair, at) => (
          <li key={at} className={styles.one}>
            <div className={styles.pair}>
              <FieldChoice label={`Pair ${at + 1}, one puppy`} value={pair.firstPuppyId} options={puppies} onChange={(firstPuppyId) => put(at, { firstPuppyId })} />
              <FieldChoice label={`Pair ${at + 1}, the other`} value={pair.secondPuppyId} options={puppies} onChange={(secondPuppyId) => put(at, { secondPuppyId })} />
            </div>
            <p className="small">{pair.firstPuppyId === pair.secondPuppyId ? 'Choose two different puppies.' : notice(pair, at)}</p>
            {pairs.length > 1 ? (
              <div>
                <Button tone="quiet" aria-label={`Leave out pair ${at + 1}`} onClick={() => onChange(pairs.filter((_, index) => index !== at))}>
                  Leave out
                </Button>
              </div>
            ) : null}
          </li>
        ))}
      </ol>
      {pairs.length < most && spare ? (
        <div>
          <Button onClick={() => onChange([...pairs, spare])}>Add a pair</Button>
        </div>
      ) : null}
    </>
  );
}

/** The first two puppies that are no pair yet. */
function firstFree(pairs: readonly Pair[], ids: readonly string[]): Pair | null {
  const taken = new Set(pairs.map(({ firstPuppyId, secondPuppyId }) => [firstPuppyId, secondPuppyId].sort().join()));
  for (const [at, firstPuppyId] of ids.entries()) {
    const secondPuppyId = ids.slice(at + 1).find((id) => !taken.has([firstPuppyId, id].sort().join()));
    if (secondPuppyId !== undefined) return { firstPuppyId, secondPuppyId };
  }
  return null;
}
