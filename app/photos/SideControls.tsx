import { shots as shotCatalogue, type ShotKey } from '#lib/photo/shot';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import styles from './SideBySide.module.css';

type Toggle = { readonly words: string; readonly on: boolean; readonly set: (on: boolean) => void };

type Props = {
  readonly shot: ShotKey;
  readonly shots: readonly ShotKey[];
  readonly onShot: (shot: ShotKey) => void;
  readonly toggles: readonly Toggle[];
  /** Null with one picture only. */
  readonly onSwap: (() => void) | null;
  readonly onWhole: () => void;
};

/** Which view, and how the pictures stand beside each other. */
export function SideControls({ shot, shots, onShot, toggles, onSwap, onWhole }: Props) {
  return (
    <div className={styles.controls}>
      <FieldChoice label="View" value={shot} options={shots.map((key) => ({ key, words: shotCatalogue[key].name }))} onChange={onShot} />
      {toggles.map(({ words, on, set }) => (
        <FieldTick key={words} label={words} ticked={on} onChange={set} />
      ))}
      <div className={styles.buttons}>
        {onSwap && <Button onClick={onSwap}>Swap places</Button>}
        <Button onClick={onWhole}>Whole pictures</Button>
      </div>
    </div>
  );
}
