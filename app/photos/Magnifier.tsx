import type { Point } from '#lib/photo/pinhole';
import { Cross } from './Cross';
import { photoAddress } from './photoAddress';
import type { StagePhoto } from './Stage';
import styles from './CloseUp.module.css';

/** What lies under the cross, four times enlarged: fingers hide what they point at. */
export function Magnifier({ photo, at }: { readonly photo: StagePhoto; readonly at: Point }) {
  const reach = Math.max(photo.width, photo.height) / 16;
  const [x, y] = [at.x * photo.width, at.y * photo.height];
  return (
    <svg className={styles.magnifier} viewBox={`${x - reach} ${y - reach} ${2 * reach} ${2 * reach}`} aria-hidden="true">
      <image href={photoAddress(photo.id, 'large')} width={photo.width} height={photo.height} preserveAspectRatio="none" />
      <Cross at={at} size={photo} zoom={40} />
    </svg>
  );
}
