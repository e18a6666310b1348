import type { PuppyFace } from '#lib/contract/evaluationView';
import type { StripScale } from '../_parts/ScoreStrip';
import { DataTable } from './DataTable';
import { scoreCounts } from './scoreCounts';
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
        const counts = scoreCounts(answers.filter((one) => one.puppy === puppy.id), scale);
        return { key: puppy.id, head: puppy.name, cells: [...counts.steps, counts.cannotJudge] };
      })}
    />
  );
}
