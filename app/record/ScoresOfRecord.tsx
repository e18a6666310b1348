import type { BoardView } from '#lib/contract/boardView';
import type { Criterion } from '#lib/sheet/criterion';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { DataTable } from '../_parts/DataTable';
import { capital, purposeWords } from '../_parts/textWords';
import { byPurpose } from '../_result/ResultTables';
import { scoreWords } from '../_result/scoreWords';
import { RecordSection } from './RecordSection';

type ScoresProps = { readonly board: BoardView; readonly faces: Faces };
type Dot = BoardView['criteria'][number]['dots'][number];

/** Every score, puppy by puppy, with the side it leans to; second scores where a second round asked. */
export function ScoresOfRecord({ board, faces }: ScoresProps) {
  const { puppies, seats } = useEvaluation();
  const scoring = seats.filter((seat) => board.criteria.some(({ dots }) => dots.some((dot) => dot.seat === seat.id)));
  const columns = board.anonymous ? ['All seats, lowest first'] : scoring.map(({ label }) => label);
  return (
    <RecordSection id="scores" title="Every score">
      <p>
        {board.second === null
          ? 'As each seat locked them.'
          : 'As the result counts them: a seat’s second score where the second round asked for one.'}{' '}
        Signed scores say to which side, 1 slight, 2 clear, 3 marked; 0 is as asked.
      </p>
      {puppies.map((puppy) => (
        <DataTable
          key={puppy.id}
          caption={puppy.withdrawn ? `${puppy.name}, withdrawn` : puppy.name}
          heads={['Criterion', ...columns]}
          rows={board.criteria.map(({ criterion: key, dots }) => {
            const criterion = faces.criterion(key);
            const own = dots.filter((dot) => dot.puppy === puppy.id);
            const cells = board.anonymous
              ? [alike(own, criterion)]
              : scoring.map((seat) =>
                  scoreOfRecord(
                    criterion,
                    own.find((dot) => dot.seat === seat.id),
                  ),
                );
            return { key, head: criterionHead(faces, key), cells };
          })}
        />
      ))}
    </RecordSection>
  );
}

function criterionHead(faces: Faces, key: string): string {
  const criterion = faces.criterion(key);
  const ends = !criterion
    ? ''
    : criterion.twoSided
      ? ''
      : ` (low: ${criterion.labels.low}; high: ${criterion.labels.high})`;
  return `${faces.criterionName(key)}${ends}`;
}

/** One score with the words of its side: "−2 too short", "0 as asked", "5", "cannot judge". */
export function scoreOfRecord(
  criterion: Criterion | undefined,
  dot: Pick<Dot, 'value' | 'cannotJudge'> | undefined,
): string {
  const words = scoreWords({ twoSided: criterion?.twoSided === true }, dot);
  if (!criterion?.twoSided || dot === undefined || dot.value === null) return words;
  return `${words} ${dot.value === 0 ? 'as asked' : dot.value < 0 ? criterion.labels.tooLittle : criterion.labels.tooMuch}`;
}

function alike(dots: readonly Dot[], criterion: Criterion | undefined): string {
  const said = dots
    .filter(({ value, cannotJudge }) => value !== null || cannotJudge)
    .toSorted((a, b) => (a.value ?? Infinity) - (b.value ?? Infinity));
  return said.map((dot) => scoreOfRecord(criterion, dot)).join(', ') || '–';
}

/** How often each criterion counts for each purpose. */
export function WeightsOfRecord({ faces }: Pick<ScoresProps, 'faces'>) {
  const { purposes: all, sheet } = useEvaluation();
  const purposes = byPurpose(all ?? []);
  if (purposes.length === 0) return null;
  return (
    <RecordSection id="weights" title="What counts for what">
      <DataTable
        figures
        caption="How often each criterion counts"
        heads={['Criterion', ...purposes.map(({ key }) => capital(purposeWords[key]))]}
        rows={sheet.criteria.map(({ key }) => ({
          key,
          head: faces.criterionName(key),
          cells: purposes.map(({ weights }) => String(weights[key] ?? 0)),
        }))}
      />
    </RecordSection>
  );
}
