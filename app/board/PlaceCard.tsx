import Link from 'next/link';
import type { BoardView } from '#lib/contract/boardView';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { isRescoring } from '../_evaluation/isRescoring';
import type { Revealed } from '../_evaluation/useRevealed';
import { ButtonLink } from '../_parts/Button';
import { ChanceList, type PuppyChance } from '../_parts/ChanceList';
import { Disclosure } from '../_parts/Disclosure';
import { listWords } from '../_parts/textWords';
import { NoteList } from '../_result/NoteList';
import { slotWords } from '../_parts/slotWords';
import { ChoiceList } from '../_result/ChoiceList';
import { lookOutcomeWords } from '../_result/LookAnswers';
import { NoteForm } from './DiscussionSection';
import styles from './board.module.css';

export type SlotResult = BoardView['slots'][number];

type PlaceProps = {
  readonly slot: SlotResult;
  readonly revealed: Revealed;
  readonly faces: Faces;
};

/** One place in the pick order. A close call names its candidates, holds the talk about them, and can open a second look. */
export function PlaceCard({ slot, revealed, faces }: PlaceProps) {
  const evaluation = useEvaluation();
  const place = faces.slot(slot.slotId);
  if (!place) return null;
  const picked = revealed.decision.decisions.find((one) => one.slotId === slot.slotId && one.puppyId !== null);
  const open = slot.close && !picked;
  const props = { slot, evaluation, revealed, faces };
  return (
    <article aria-label={`Place ${faces.place(slot.slotId)}`} className={open ? 'card edge-accent' : 'card'}>
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
      <div className={`wrap ${styles.more}`}>
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

/** Where an open close call goes on: to second looks while there are some left, else to a decision on the owner's declared preference. */
function LookWay({ slot, revealed, faces }: PlaceProps) {
  const evaluation = useEvaluation();
  const { verdict, used, agreed } = slot.looks;
  const place = faces.place(slot.slotId);
  const isFirst = openCloseCalls(revealed)[0]?.slotId === slot.slotId;
  const tone = isFirst ? 'main' : 'plain';
  if (evaluation.phase !== 'deciding') return null;
  const mayPrepare =
    evaluation.viewer.leads && !isRescoring(evaluation) && revealed.looks.every((look) => look.state === 'revealed');
  const prepare = `${used === 0 ? 'Prepare second looks' : `Prepare batch ${used + 1} of ${agreed}`} for place ${place}`;
  const lookHref = `/look?id=${evaluation.id}&slot=${slot.slotId}`;
  if (verdict === 'equalWithinHalf' || verdict === 'notSettled') {
    return (
      <>
        {used > 0 ? (
          <p className="small figures">{`${used} of ${agreed} agreed batches of second looks used.`}</p>
        ) : null}
        <div className="wrap gap-12">
          <ButtonLink tone={tone} href={`/decide?id=${evaluation.id}`}>
            {verdict === 'equalWithinHalf'
              ? `Hardly apart: decide place ${place} by preference`
              : `Not settled: decide place ${place}`}
          </ButtonLink>
          {/* What the scores hold for equal the panel may still wish to see side by side. */}
          {verdict === 'equalWithinHalf' && used === 0 && mayPrepare ? (
            <ButtonLink tone="quiet" href={lookHref}>
              {prepare}
            </ButtonLink>
          ) : null}
        </div>
      </>
    );
  }
  if (!mayPrepare) return null;
  return (
    <div>
      <ButtonLink tone={tone} href={lookHref}>
        {prepare}
      </ButtonLink>
    </div>
  );
}

/** What each seat chose for this place before it locked, with its reason. Outside merit. */
function OwnChoices({ slot, revealed, faces }: PlaceProps) {
  const choices = revealed.board.choices.filter((one) => one.slotId === slot.slotId);
  if (choices.length === 0) return null;
  return (
    <Disclosure words="What each seat chose">
      <ChoiceList choices={choices} faces={faces} />
    </Disclosure>
  );
}

/** The talk about a close call: notes of every seat as they come, and room for one's own. */
function PlaceNotes({ slot, revealed, faces }: PlaceProps) {
  const evaluation = useEvaluation();
  const notes = revealed.notes.filter((note) => note.slotId === slot.slotId);
  const place = faces.place(slot.slotId);
  const mayWrite = evaluation.phase === 'deciding' && evaluation.viewer.seatId !== null;
  return (
    <>
      <NoteList notes={notes} faces={faces} />
      {mayWrite ? (
        <Disclosure words={`Write a note on place ${place}`} open={openCloseCalls(revealed)[0]?.slotId === slot.slotId}>
          <NoteForm
            about={{ slotId: slot.slotId, puppyId: null, otherPuppyId: null, criterion: null }}
            label={`Your note on place ${place}`}
          />
        </Disclosure>
      ) : null}
    </>
  );
}

/** Second looks at candidates of this place: how they came out, or that one is open. */
function PlaceLooks({ slot, revealed, faces }: PlaceProps) {
  const evaluation = useEvaluation();
  const looks = revealed.looks.filter((look) => look.slotId === slot.slotId);
  if (looks.length === 0) return null;
  return (
    <>
      {looks.map((look) => (
        <p key={look.id}>
          {lookOutcomeWords(look, faces)}{' '}
          {look.state === 'revealed' ? null : (
            <Link href={`/look?id=${evaluation.id}`}>{look.state === 'open' ? 'Answer it' : 'See it'}</Link>
          )}
        </p>
      ))}
    </>
  );
}

/** Close calls that are still to be picked, in pick order. */
export function openCloseCalls({ board, decision }: Pick<Revealed, 'board' | 'decision'>): SlotResult[] {
  const picked = new Set(decision.decisions.map(({ slotId }) => slotId));
  return board.slots.filter((slot) => slot.close && !picked.has(slot.slotId));
}

/** Chances with the faces they belong to. */
export function chancesOf(
  chances: readonly { readonly puppy: string; readonly probability: number }[],
  faces: Faces,
): PuppyChance[] {
  return chances.flatMap(({ puppy, probability }) => {
    const face = faces.puppy(puppy);
    return face ? [{ puppy: face, probability }] : [];
  });
}
