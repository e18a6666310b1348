import type { SectionProps } from './AgreementSection';
import { CountsTable } from './CountsTable';
import { DataTable } from './DataTable';
import { scoreWords } from './scoreWords';

/** One thing asked beside merit: the overall impression, or a criterion standing free. */
export function AsideTable({ field, evaluation, board, faces }: SectionProps & { readonly field: string }) {
  const key = field.startsWith('free:') ? field.slice('free:'.length) : null;
  const twoSided = key !== null && faces.criterion(key)?.twoSided === true;
  const caption = key === null ? 'Overall impression' : `${faces.criterionName(key)}, standing by itself`;
  const answers = board.asides.filter((one) => one.field === field).map((one) => ({ ...one, cannotJudge: one.value === null }));
  if (board.anonymous) {
    const scale = twoSided ? { low: -3, high: 3, twoSided } : { ...evaluation.sheet.scale, twoSided };
    return <CountsTable caption={`${caption}: seats by score`} puppies={evaluation.puppies} answers={answers} scale={scale} />;
  }
  const seats = evaluation.seats.filter((seat) => board.asides.some((one) => one.seat === seat.id));
  return (
    <DataTable
      figures
      caption={caption}
      heads={['Puppy', ...seats.map((seat) => seat.label)]}
      rows={evaluation.puppies.map((puppy) => ({
        key: puppy.id,
        head: puppy.name,
        cells: seats.map((seat) => scoreWords({ twoSided }, answers.find((one) => one.puppy === puppy.id && one.seat === seat.id))),
      }))}
    />
  );
}
