import type { BoardView } from '#lib/contract/boardView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { ChanceList } from '../_parts/ChanceList';
import { chancesOf } from './chancesOf';
import { Disclosure } from './Disclosure';
import type { Faces } from './facesOf';
import { listWords } from './listWords';
import { LookWay } from './LookWay';
import { OwnChoices } from './OwnChoices';
import styles from './PlaceCard.module.css';
import { PlaceLooks } from './PlaceLooks';
import { PlaceNotes } from './PlaceNotes';
import { slotWords } from './slotWords';
import type { Revealed } from './useRevealed';

export type SlotResult = BoardView['slots'][number];

export type PlaceProps = {
  readonly slot: SlotResult;
  readonly evaluation: EvaluationView;
  readonly revealed: Revealed;
  readonly faces: Faces;
};

/** One place in the pick order. A close call names its candidates, holds the talk about them, and can open a second look. */
export function PlaceCard({ slot, evaluation, revealed, faces }: PlaceProps) {
  const place = faces.slot(slot.slotId);
  if (!place) return null;
  const picked = revealed.decision.decisions.find((one) => one.slotId === slot.slotId && one.puppyId !== null);
  const open = slot.close && !picked;
  const props = { slot, evaluation, revealed, faces };
  return (
    <article aria-label={`Place ${faces.place(slot.slotId)}`} className={open ? styles.close : styles.card}>
      <h3>{heading(slot, faces, { open, pickedId: picked?.puppyId ?? null })}</h3>
      <p className="small">
        {picked ? <b>Picked by {picked.by}. </b> : null}
        {slotWords(place)}
      </p>
      <p>{slot.sentence}</p>
      {open ? <ChanceList chances={chancesOf(slot.candidates, faces)} /> : null}
      <PlaceLooks {...props} />
      {slot.looks.used > 0 && !picked ? <p>{slot.looks.sentence}</p> : null}
      {open ? <LookWay {...props} /> : null}
      {open ? <PlaceNotes {...props} /> : null}
      <div className={styles.more}>
        <OwnChoices {...props} />
        {slot.chances.length > slot.candidates.length ? (
          <Disclosure words="All chances">
            <ChanceList chances={chancesOf(slot.chances, faces)} />
          </Disclosure>
        ) : null}
      </div>
    </article>
  );
}

type Standing = { readonly open: boolean; readonly pickedId: string | null };

function heading(slot: SlotResult, faces: Faces, { open, pickedId }: Standing): string {
  const place = `Place ${faces.place(slot.slotId)}`;
  if (pickedId !== null) return `${place}: ${faces.puppyName(pickedId)} picked`;
  if (open) return `${place}, a close call: ${listWords(slot.candidates.map(({ puppy }) => faces.puppyName(puppy)))}`;
  const [first] = slot.chances;
  return first ? `${place}: ${faces.puppyName(first.puppy)} most likely` : `${place}: nobody fits`;
}
