import { scaleLinear } from 'd3-scale';
import type { LitterView, PuppyView } from '#lib/contract/litter';
import { ageInDays } from '#lib/evaluation/ages';
import { collarColour, CollarMark } from '../_parts/CollarChip';
import styles from './litter.module.css';

const width = 760;
const gap = 26;
const edges = { left: 92, right: 580, top: 16 };

/** One line a puppy, in its collar's colour on an ink edge, named at its end. */
export function GrowthPicture({ litter }: { readonly litter: LitterView }) {
  const series = growthSeries(litter);
  // Tall enough for every name to stand on a line of its own.
  const bottom = edges.top + Math.max(270, gap * (series.length - 1));
  const frame = { ...edges, bottom };
  const { x, y } = scales(series, frame);
  const labels = spreadLabels(
    series.map(({ points }) => y(points.at(-1)?.grams ?? 0)),
    { gap, least: frame.top, most: frame.bottom },
  );
  return (
    <div className={styles.picture}>
      <svg
        viewBox={`0 0 ${width} ${bottom + 56}`}
        role="img"
        aria-label="Weight of each puppy by age; the figures stand in the table below"
      >
        <Axes x={x} y={y} frame={frame} />
        {series.map((one, index) => (
          <Line key={one.puppy.id} series={one} x={x} y={y} label={labels[index] ?? 0} />
        ))}
      </svg>
    </div>
  );
}

type Frame = typeof edges & { readonly bottom: number };
type Scale = ReturnType<typeof scaleLinear<number, number>>;
type Scales = { readonly x: Scale; readonly y: Scale };

function scales(series: readonly GrowthSeries[], frame: Frame): Scales {
  const points = series.flatMap((one) => one.points);
  const ages = points.map(({ age }) => age);
  const [first, last] = [Math.min(...ages), Math.max(...ages)];
  const room = first === last ? 1 : 0;
  return {
    x: scaleLinear([first - room, last + room], [frame.left, frame.right]),
    y: scaleLinear([0, Math.max(...points.map(({ grams }) => grams))], [frame.bottom, frame.top]).nice(5),
  };
}

function Axes({ x, y, frame }: Scales & { readonly frame: Frame }) {
  const days = x.ticks(6).filter(Number.isInteger);
  return (
    <g>
      {y.ticks(5).map((grams) => (
        <g key={grams}>
          <line x1={frame.left} x2={frame.right} y1={y(grams)} y2={y(grams)} stroke="var(--rule)" />
          <text x={frame.left - 10} y={y(grams) + 5} textAnchor="end" className={styles.tick}>
            {grams}
          </text>
        </g>
      ))}
      {days.map((age) => (
        <text key={age} x={x(age)} y={frame.bottom + 24} textAnchor="middle" className={styles.tick}>
          {age}
        </text>
      ))}
      <text x={frame.left - 10} y={frame.bottom + 24} textAnchor="end" className={styles.tick}>
        grams
      </text>
      <text x={frame.right} y={frame.bottom + 50} textAnchor="end" className={styles.tick}>
        age in days
      </text>
    </g>
  );
}

function Line({
  series: { puppy, points },
  x,
  y,
  label,
}: Scales & { readonly series: GrowthSeries; readonly label: number }) {
  const path = points.map(({ age, grams }) => `${x(age)},${y(grams)}`).join(' ');
  const last = points.at(-1);
  if (!last) return null;
  const colour = puppy.collar === 'none' ? 'var(--sheet)' : collarColour[puppy.collar];
  return (
    <g>
      <polyline points={path} fill="none" stroke="var(--ink)" strokeWidth={3.5} strokeLinejoin="round" />
      <polyline points={path} fill="none" stroke={colour} strokeWidth={2} strokeLinejoin="round" />
      {points.map(({ age, grams }) => (
        <CollarMark key={age} collar={puppy.collar} cx={x(age)} cy={y(grams)} radius={4} />
      ))}
      <line
        x1={x(last.age) + 6}
        y1={y(last.grams)}
        x2={edges.right + 14}
        y2={label}
        stroke="var(--edge)"
        strokeWidth={1}
      />
      <CollarMark collar={puppy.collar} cx={edges.right + 24} cy={label} radius={6} />
      <text x={edges.right + 38} y={label + 5} className={styles.lineName}>
        {puppy.name}
      </text>
    </g>
  );
}

type GrowthSeries = {
  readonly puppy: PuppyView;
  /** By age in days, ascending. */
  readonly points: readonly { readonly age: number; readonly grams: number }[];
};

/** What the picture and its table draw: the weighed puppies, their weights by age. */
function growthSeries({ puppies, whelpedOn }: Pick<LitterView, 'puppies' | 'whelpedOn'>): GrowthSeries[] {
  return puppies.flatMap((puppy) => {
    const points = puppy.weights
      .map(({ weighedOn, grams }) => ({ age: ageInDays(whelpedOn, weighedOn), grams }))
      .sort((a, b) => a.age - b.age);
    return points.length === 0 ? [] : [{ puppy, points }];
  });
}

/**
 * Heights for labels that should stand at `wanted` and at least `gap` apart, in the order of `wanted`, kept within
 * `least` and `most` where there is room: pushed down in reading order, then up again from the bottom.
 */
export function spreadLabels(
  wanted: readonly number[],
  { gap, least, most }: { readonly gap: number; readonly least: number; readonly most: number },
): number[] {
  const order = wanted.map((height, index) => ({ height, index })).sort((a, b) => a.height - b.height);
  let above = least - gap;
  for (const label of order) {
    label.height = Math.max(label.height, above + gap);
    above = label.height;
  }
  let below = most + gap;
  for (const label of order.toReversed()) {
    label.height = Math.min(label.height, below - gap);
    below = label.height;
  }
  const heights = [...wanted];
  for (const { height, index } of order) heights[index] = height;
  return heights;
}
