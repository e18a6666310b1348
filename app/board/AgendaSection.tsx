'use client';

import type { BoardView } from '#lib/contract/boardView';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Disclosure } from '../_parts/Disclosure';
import { counted } from '../_parts/textWords';
import { scoreWords } from '../_result/scoreWords';
import { SideBySide } from '../photos/SideBySide';
import type { SectionProps } from './AgreementSection';
import { PuppyStrip } from './CriterionRow';

/** What the panel should settle first, because it could change a pick; what it talks about is its own affair. */
export function AgendaSection({ board, faces }: SectionProps) {
  const evaluation = useEvaluation();
  return (
    <section aria-labelledby="agenda" className="stack gap-12">
      <h2 id="agenda">Worth talking about</h2>
      <p className="small">{intro(board)}</p>
      <ol className="list stack gap-10">
        {board.agenda.map((item, at) => {
          const criterion = item.criterion === null ? undefined : faces.criterion(item.criterion);
          const result = board.criteria.find((one) => one.criterion === item.criterion);
          return (
            <li key={item.sentence} className="card edge-accent">
              {criterion && result && item.puppy !== null ? (
                <PuppyStrip
                  criterion={criterion}
                  result={result}
                  puppyId={item.puppy}
                  sheet={evaluation.sheet}
                  faces={faces}
                  width={240}
                />
              ) : null}
              <p>
                <b>{at + 1}</b> · {item.sentence}
              </p>
              <PicturesBeside puppyIds={pairOf(item, board)} />
            </li>
          );
        })}
      </ol>
      <ApartList board={board} faces={faces} />
    </section>
  );
}

/** Whom to look at: the puppy it is about beside the likeliest other for that place, or the two likeliest. */
function pairOf({ puppy, slotId }: BoardView['agenda'][number], { slots }: BoardView): string[] {
  const likely = slots.find((slot) => slot.slotId === slotId)?.chances.map((chance) => chance.puppy) ?? [];
  return (puppy === null ? likely : [puppy, ...likely.filter((id) => id !== puppy)]).slice(0, 2);
}

function intro({ agenda, slots }: BoardView): string {
  if (slots.length === 0) return 'No place was set up, so nothing here could change a pick.';
  if (agenda.length === 0) return 'Nothing the panel differs on could change an open pick.';
  return `${counted(agenda.length, 'item')} could change a pick, the most worth it first. Each figure is what to expect on average, not a promise.`;
}

/** From this many points between two seats on a cell is named in the list. */
const FAR_APART = 3;

/** Everything else the seats differ on by much: not on the agenda, because settling it could change a pick less, if at all. */
function ApartList({ board, faces }: SectionProps) {
  const evaluation = useEvaluation();
  const cells = board.criteria.flatMap(({ criterion, dots }) =>
    evaluation.puppies.flatMap((puppy) => {
      const values = dots.flatMap((dot) => (dot.puppy === puppy.id && dot.value !== null ? [dot.value] : []));
      const [low, high] = [Math.min(...values), Math.max(...values)];
      const onAgenda = board.agenda.some(
        (item) => item.criterion === criterion && (item.puppy === puppy.id || item.puppy === null),
      );
      return values.length > 1 && high - low >= FAR_APART && !onAgenda ? [{ criterion, puppy, low, high }] : [];
    }),
  );
  if (cells.length === 0) return null;
  const ordered = cells.toSorted((one, other) => other.high - other.low - (one.high - one.low));
  return (
    <Disclosure words={`Also ${FAR_APART} points or more apart: ${counted(cells.length, 'question')}`}>
      <p className="small">Settling one of these could change a pick less than what stands above, if at all.</p>
      <ul className="stack points gap-4">
        {ordered.map(({ criterion, puppy, low, high }) => {
          const scale = { twoSided: faces.criterion(criterion)?.twoSided === true };
          const words = (value: number) => scoreWords(scale, { value, cannotJudge: false });
          return (
            <li key={`${puppy.id} ${criterion}`}>
              <b>{puppy.name}</b>, {faces.criterionName(criterion).toLowerCase()}: from {words(low)} to {words(high)}
            </li>
          );
        })}
      </ul>
    </Disclosure>
  );
}

/** The photographs of what is being talked about, the same view of each; fetched when it is opened. */
function PicturesBeside({ puppyIds }: { readonly puppyIds: readonly string[] }) {
  const evaluation = useEvaluation();
  if (puppyIds.length === 0) return null;
  const names = puppyIds.flatMap((id) => evaluation.puppies.find((puppy) => puppy.id === id)?.name ?? []);
  return (
    <Disclosure
      bare
      lazy
      words={names.length > 1 ? `Photographs side by side: ${names.join(' and ')}` : `Photographs of ${names.join()}`}
    >
      <SideBySide puppyIds={puppyIds} />
    </Disclosure>
  );
}
