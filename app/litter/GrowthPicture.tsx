import { scaleLinear } from 'd3-scale';
import type { LitterView } from '#lib/contract/litter';
import { collarColour } from '../_parts/collarColour';
import { CollarMark } from '../_parts/CollarMark';
import { growthSeries, type GrowthSeries } from './growthSeries';
import styles from './Litter.module.css';
import { spreadLabels } from './spreadLabels';

const width = 760;
const height = 340;
const frame = { left: 64, right: 600, top: 16, bottom: 292 };

/** One line a puppy, in its collar's colour on an ink edge, named at its end. */
export function GrowthPicture({ litter }: { readonly litter: LitterView }) {
  const series = growthSeries(litter);
  const { x, y } = scales(series);
  const labels = spreadLabels(
    series.map(({ points }) => y(points.at(-1)?.grams ?? 0)),
    { gap: 20, least: frame.top, most: frame.bottom },
  );
  return (
    <div className={styles.picture}>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label="Weight of each puppy by age; the figures stand in the table below">
        <Axes x={x} y={y} />
        {series.map((one, index) => (
          <Line key={one.puppy.id} series={one} x={x} y={y} label={labels[index] ?? 0} />
        ))}
      </svg>
    </div>
  );
}

type Scale = ReturnType<typeof scaleLinear<number, number>>;
type Scales = { readonly x: Scale; readonly y: Scale };

function scales(series: readonly GrowthSeries[]): Scales {
  const points = series.flatMap((one) => one.points);
  const ages = points.map(({ age }) => age);
  const [first, last] = [Math.min(...ages), Math.max(...ages)];
  const room = first === last ? 1 : 0;
  return {
    x: scaleLinear([first - room, last + room], [frame.left, frame.right]),
    y: scaleLinear([0, Math.max(...points.map(({ grams }) => grams))], [frame.bottom, frame.top]).nice(5),
  };
}

function Axes({ x, y }: Scales) {
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
      <text x={frame.right} y={frame.bottom + 44} textAnchor="end" className={styles.tick}>
        age in days
      </text>
    </g>
  );
}

function Line({ series: { puppy, points }, x, y, label }: Scales & { readonly series: GrowthSeries; readonly label: number }) {
  const path = points.map(({ age, grams }) => `${x(age)},${y(grams)}`).join(' ');
  const last = points.at(-1);
  if (!last) return null;
  const colour = puppy.collar === 'none' ? 'var(--sheet)' : collarColour[puppy.collar];
  return (
    <g>
      <polyline points={path} fill="none" stroke="var(--ink)" strokeWidth={4.5} strokeLinejoin="round" />
      <polyline points={path} fill="none" stroke={colour} strokeWidth={2.5} strokeLinejoin="round" />
      {points.map(({ age, grams }) => (
        <CollarMark key={age} collar={puppy.collar} cx={x(age)} cy={y(grams)} radius={4} />
      ))}
      <line x1={x(last.age) + 6} y1={y(last.grams)} x2={frame.right + 14} y2={label} stroke="var(--edge)" strokeWidth={1} />
      <text x={frame.right + 20} y={label + 5} className={styles.lineName}>
        {puppy.name}
      </text>
    </g>
  );
}
