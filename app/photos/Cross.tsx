import type { Point } from '#lib/photo/pinhole';
import type { PixelSize } from '#lib/photo/placing';
import styles from './photos.module.css';

type Props = { readonly at: Point; readonly size: PixelSize; readonly zoom: number; /** A place that is set; else the cross that moves. */ readonly set?: boolean; readonly title?: string };

/** A small cross on a picture, without number and without lines to others. */
export function Cross({ at, size, zoom, set = false, title }: Props) {
  const unit = Math.max(size.width, size.height) / (600 * Math.sqrt(zoom));
  const [x, y] = [at.x * size.width, at.y * size.height];
  const arm = unit * (set ? 6 : 14);
  const path = `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}`;
  return (
    <g>
      {title === undefined ? null : <title>{title}</title>}
      <path d={path} className={styles.casing} strokeWidth={unit * 4} />
      <path d={path} className={styles.line} strokeWidth={unit * 1.6} strokeDasharray={set ? undefined : `${unit * 4} ${unit * 3}`} />
    </g>
  );
}
