import { useEvaluation } from '../_evaluation/evaluationContext';
import { DataTable } from '../_parts/DataTable';
import { Disclosure } from '../_parts/Disclosure';
import { CountsTable } from '../_result/CountsTable';
import { CardNotes } from '../_result/NoteList';
import { scoreWords } from '../_result/scoreWords';
import type { SectionProps } from './AgreementSection';

/** Overall impressions and scores of the puppy standing by itself: beside merit, never in it. And the notes on the cards. */
export function AsidesSection(props: SectionProps) {
  const { board, faces } = props;
  const fields = [...new Set(board.asides.map(({ field }) => field))].sort(
    (a, b) => Number(b === 'overall') - Number(a === 'overall'),
  );
  if (fields.length === 0 && board.notes.length === 0) return null;
  return (
    <section aria-labelledby="asides" className="stack gap-16">
      <h2 id="asides">Beside merit</h2>
      <p className="text">Asked last and kept apart: none of this counts towards the order above.</p>
      {fields.map((field) => (
        <AsideTable key={field} field={field} {...props} />
      ))}
      {board.notes.length > 0 ? (
        <Disclosure words="Notes on the cards">
          <CardNotes board={board} faces={faces} />
        </Disclosure>
      ) : null}
    </section>
  );
}

/** One thing asked beside merit: the overall impression, or a criterion standing free. */
function AsideTable({ field, board, faces }: SectionProps & { readonly field: string }) {
  const evaluation = useEvaluation();
  const key = field.startsWith('free:') ? field.slice('free:'.length) : null;
  const twoSided = key !== null && faces.criterion(key)?.twoSided === true;
  const caption = key === null ? 'Overall impression' : `${faces.criterionName(key)}, standing by itself`;
  const answers = board.asides
    .filter((one) => one.field === field)
    .map((one) => ({ ...one, cannotJudge: one.value === null }));
  if (board.anonymous) {
    const scale = twoSided ? { low: -3, high: 3, twoSided } : { ...evaluation.sheet.scale, twoSided };
    return (
      <CountsTable
        caption={`${caption}: seats by score`}
        puppies={evaluation.puppies}
        answers={answers}
        scale={scale}
      />
    );
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
        cells: seats.map((seat) =>
          scoreWords(
            { twoSided },
            answers.find((one) => one.puppy === puppy.id && one.seat === seat.id),
          ),
        ),
      }))}
    />
  );
}
