import type { PointerInput } from '#lib/contract/photo';
import type { Point } from '#lib/photo/pinhole';
import type { PixelSize } from '#lib/photo/placing';
import styles from './photos.module.css';

type Props = {
  readonly pointer: PointerInput;
  readonly size: PixelSize;
  /** Stroke scale: thinner in the picture's pixels when it is enlarged. */
  readonly zoom: number;
  /** Who made it, beside the note; empty for one's own. */
  readonly by: string;
  /** False for a mark made after the reveal. */
  readonly blind?: boolean;
  readonly mirrored?: boolean;
};

/** A mark in our own plain strokes: ink with a pale casing, so that it shows on any coat. */
export function PointerMark({ pointer, size, zoom, by, blind = true, mirrored = false }: Props) {
  const unit = Math.max(size.width, size.height) / (600 * Math.sqrt(zoom));
  const from = { x: pointer.from.x * size.width, y: pointer.from.y * size.height };
  const to = { x: pointer.to.x * size.width, y: pointer.to.y * size.height };
  const path = pathOf(pointer.kind, from, to);
  const said = [by, pointer.note].filter((one) => one !== '').join(': ');
  const words = blind ? said : [said, 'not blind'].filter((one) => one !== '').join(', ');
  const at = pointer.kind === 'ring' ? { x: from.x, y: from.y - Math.hypot(to.x - from.x, to.y - from.y) } : from;
  return (
    <g>
      <title>{words === '' ? `a ${pointer.kind}` : words}</title>
      <path d={path} className={styles.casing} strokeWidth={unit * 5} />
      <path d={path} className={styles.line} strokeWidth={unit * 2.4} />
      {words !== '' ? (
        <text
          transform={`translate(${at.x} ${at.y - unit * 6})${mirrored ? ' scale(-1 1)' : ''}`}
          fontSize={unit * 14}
          strokeWidth={unit * 4}
          textAnchor={at.x > size.width * 0.6 !== mirrored ? 'end' : 'start'}
          className={styles.words}
        >
          {words}
        </text>
      ) : null}
    </g>
  );
}

type Spot = { readonly x: number; readonly y: number };

function pathOf(kind: PointerInput['kind'], from: Spot, to: Spot): string {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  if (kind === 'ring')
    return `M${from.x - far} ${from.y}a${far} ${far} 0 1 0 ${2 * far} 0a${far} ${far} 0 1 0 ${-2 * far} 0`;
  const line = `M${from.x} ${from.y}L${to.x} ${to.y}`;
  if (kind === 'line' || far === 0) return line;
  const [dx, dy] = [(to.x - from.x) / far, (to.y - from.y) / far];
  const head = Math.min(far * 0.35, 46);
  const wing = (side: number) =>
    `${to.x - head * dx + side * head * 0.5 * dy} ${to.y - head * dy - side * head * 0.5 * dx}`;
  return `${line}M${wing(1)}L${to.x} ${to.y}L${wing(-1)}`;
}

type CrossProps = {
  readonly at: Point;
  readonly size: PixelSize;
  readonly zoom: number /** A place that is set; else the cross that moves. */;
  readonly set?: boolean;
  readonly title?: string;
};

/** A small cross on a picture, without number and without lines to others. */
export function Cross({ at, size, zoom, set = false, title }: CrossProps) {
  const unit = Math.max(size.width, size.height) / (600 * Math.sqrt(zoom));
  const [x, y] = [at.x * size.width, at.y * size.height];
  const arm = unit * (set ? 6 : 14);
  const path = `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}`;
  return (
    <g>
      {title === undefined ? null : <title>{title}</title>}
      <path d={path} className={styles.casing} strokeWidth={unit * 4} />
      <path
        d={path}
        className={styles.line}
        strokeWidth={unit * 1.6}
        strokeDasharray={set ? undefined : `${unit * 4} ${unit * 3}`}
      />
    </g>
  );
}
