import type { BoardView } from '#lib/contract/boardView';
import { counted } from '../_parts/counted';
import styles from './AgendaSection.module.css';
import { ApartList } from './ApartList';
import type { SectionProps } from './AgreementSection';
import { PicturesBeside } from './PicturesBeside';
import { PuppyStrip } from './PuppyStrip';

/** What the panel should settle first, because it could change a pick; what it talks about is its own affair. */
export function AgendaSection({ evaluation, board, faces }: SectionProps) {
  return (
    <section aria-labelledby="agenda" className={styles.section}>
      <h2 id="agenda">Worth talking about</h2>
      <p className="small">{intro(board)}</p>
      <ol className={styles.items}>
        {board.agenda.map((item, at) => {
          const criterion = item.criterion === null ? undefined : faces.criterion(item.criterion);
          const result = board.criteria.find((one) => one.criterion === item.criterion);
          return (
            <li key={item.sentence} className={styles.item}>
              {criterion && result && item.puppy !== null ? (
                <PuppyStrip criterion={criterion} result={result} puppyId={item.puppy} sheet={evaluation.sheet} faces={faces} width={240} />
              ) : null}
              <p>
                <b>{at + 1}</b> · {item.sentence}
              </p>
              <PicturesBeside evaluation={evaluation} puppyIds={pairOf(item, board)} />
            </li>
          );
        })}
      </ol>
      <ApartList evaluation={evaluation} board={board} faces={faces} />
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
