import type { BoardView } from '#lib/contract/boardView';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { DataTable } from '../_parts/DataTable';
import type { StripScale } from '../_parts/ScoreStrip';
import { scoreWords } from './scoreWords';

type Answer = { readonly puppy: string; readonly value: number | null; readonly cannotJudge: boolean };

type CountsTableProps = {
  readonly caption: string;
  readonly puppies: readonly PuppyFace[];
  readonly answers: readonly Answer[];
  readonly scale: Pick<StripScale, 'low' | 'high' | 'twoSided'>;
};

/** For an anonymous panel: how many seats gave each score, puppy by puppy. */
export function CountsTable({ caption, puppies, answers, scale }: CountsTableProps) {
  const steps = Array.from({ length: scale.high - scale.low + 1 }, (_, at) => scale.low + at);
  return (
    <DataTable
      figures
      caption={caption}
      heads={['Puppy', ...steps.map((value) => scoreWords(scale, { value, cannotJudge: false })), 'Cannot judge']}
      rows={puppies.map((puppy) => {
        const counts = scoreCounts(
          answers.filter((one) => one.puppy === puppy.id),
          scale,
        );
        return { key: puppy.id, head: puppy.name, cells: [...counts.steps, counts.cannotJudge] };
      })}
    />
  );
}

type Dot = Pick<BoardView['criteria'][number]['dots'][number], 'value' | 'cannotJudge'>;

type ScoreCounts = {
  /** One for each step of the scale, lowest first. */ readonly steps: readonly number[];
  readonly cannotJudge: number;
};

/** How many seats gave each step: what an anonymous panel shows of a puppy on a criterion. */
function scoreCounts(dots: readonly Dot[], { low, high }: Pick<StripScale, 'low' | 'high'>): ScoreCounts {
  const steps = Array.from(
    { length: high - low + 1 },
    (_, at) => dots.filter(({ value }) => value === low + at).length,
  );
  return { steps, cannotJudge: dots.filter(({ value, cannotJudge }) => value === null && cannotJudge).length };
}
