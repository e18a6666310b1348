'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { type FormEvent, useState } from 'react';
import type { SlotView } from '#lib/contract/evaluationView';
import { checkNames } from '#lib/evaluation/checksMade';
import { structureAlone } from '#lib/sheet/cautions';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { isRescoring } from '../_evaluation/isRescoring';
import { Button } from '../_parts/Button';
import { ChanceList } from '../_parts/ChanceList';
import { Confirm } from '../_parts/Confirm';
import { Disclosure } from '../_parts/Disclosure';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { capital } from '../_parts/textWords';
import { slotTerms } from '../_parts/slotWords';
import { chancesOf } from '../board/PlaceCard';
import { CandidateChoice, type CandidateLine, candidateLines, type DecideGround, type DecideProps } from './Candidates';
import { MadePick } from './MadePick';

/** Every place in order: made, up now, or still to come. */
export function PicksSection(props: DecideProps) {
  const { revealed, faces } = props;
  const evaluation = useEvaluation();
  const { decisions, nextSlotId } = revealed.decision;
  return (
    <section aria-labelledby="picks" className="stack gap-14">
      <h2 id="picks">The pick order</h2>
      <p role="status">{waitingForWords({ ...props, evaluation })}</p>
      <ol className="list stack gap-12">
        {evaluation.slots.map((slot) => {
          const made = decisions.find((one) => one.slotId === slot.id);
          const up = slot.id === nextSlotId && evaluation.phase === 'deciding';
          return (
            <li key={slot.id}>
              <article aria-label={`Place ${faces.place(slot.id)}`} className={up ? 'card edge-accent' : 'card'}>
                <h3>
                  Place {faces.place(slot.id)}: {slot.taker}
                </h3>
                <p className="small">{capital(slotTerms(slot))}</p>
                {made ? <MadePick decision={made} revealed={revealed} faces={faces} /> : null}
                {up ? <PickForm key={slot.id} slot={slot} {...props} /> : null}
                {!made && !up ? <PlaceToCome slotId={slot.id} {...props} /> : null}
              </article>
            </li>
          );
        })}
      </ol>
      <TakeBack {...props} />
    </section>
  );
}

/** A place that is not up yet: how it stands, each place before it counted as filled by its likeliest puppy. */
function PlaceToCome({ slotId, revealed, faces }: DecideProps & { readonly slotId: string }) {
  const evaluation = useEvaluation();
  const result = revealed.board.slots.find((one) => one.slotId === slotId);
  return (
    <>
      <p>Not picked{evaluation.phase === 'deciding' ? ' yet' : ''}.</p>
      {result && evaluation.phase === 'deciding' && result.chances.length > 0 ? (
        <Disclosure words="How it stands">
          <p>{result.sentence}</p>
          <ChanceList chances={chancesOf(result.chances, faces)} />
          <p className="small">
            Each place before it counts as filled by its pick, or until then by its likeliest puppy.
          </p>
        </Disclosure>
      ) : null}
    </>
  );
}

type PickFormProps = DecideProps & { readonly slot: SlotView };

/** What is typed and ticked before a pick is made, and the pick itself. */
function usePick(
  slot: SlotView,
  { chosen, equal }: { readonly chosen: CandidateLine | undefined; readonly equal: boolean },
) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  /** The puppy of whom the picker has said that it is picked although checks are open. */
  const [knowingOf, setKnowingOf] = useState('');
  const [reason, setReason] = useState('');
  const [ticked, setPreference] = useState<boolean | null>(null);
  const make = useMutation(trpc.decision.make.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const preference = ticked ?? equal;
  const unexamined = slot.purpose === 'keep' && chosen ? [...chosen.beside.unexamined] : [];
  const asked = unexamined.length > 0 && knowingOf !== chosen?.puppy.id;
  const decide = (puppyId: string | null) =>
    make.mutate({
      id: evaluation.id,
      slotId: slot.id,
      puppyId,
      unexamined,
      reason,
      preference: preference && puppyId !== null,
    });
  return { reason, setReason, preference, setPreference, unexamined, asked, setKnowingOf, make, decide };
}

/** The place that is up: the panel's chances, who fits, and for those who may the pick with its reason. */
function PickForm({ slot, ...props }: PickFormProps) {
  const { revealed, faces } = props;
  const evaluation = useEvaluation();
  const [puppyId, setPuppyId] = useState('');
  const lines = candidateLines(slot, { ...props, evaluation });
  const chosen = lines.find((line) => line.puppy.id === puppyId && line.barred === null);
  const mayDecide = revealed.decision.mayDecide && !isRescoring(evaluation);
  const result = revealed.board.slots.find((one) => one.slotId === slot.id);
  const equal = result?.looks.verdict === 'equalWithinHalf';
  const open = result?.close === true && result.looks.verdict === 'goOn';
  const pick = usePick(slot, { chosen, equal });
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (chosen && !pick.asked) pick.decide(chosen.puppy.id);
  };
  return (
    <form onSubmit={send} className="stack gap-12">
      {result ? <p>{result.sentence}</p> : null}
      {slot.purpose === 'keep' ? null : <p className="small">{structureAlone}</p>}
      {result && result.looks.used > 0 ? <p>{result.looks.sentence}</p> : null}
      {equal ? (
        <p className="told slim">
          The scores and looks have said what they can. What is left is a preference: say whose it is and why. It goes
          into the record as a preference, not as evidence.
        </p>
      ) : null}
      {open && evaluation.viewer.leads && mayDecide ? (
        <p>
          <Link href={`/look?id=${evaluation.id}&slot=${slot.id}`}>A second look first</Link>
        </p>
      ) : null}
      <CandidateChoice lines={lines} chosen={chosen?.puppy.id ?? ''} onChoose={setPuppyId} readOnly={!mayDecide} />
      {mayDecide ? (
        <PickFields
          pick={pick}
          chosen={chosen}
          hint={preferenceHint(equal, result?.close === true)}
          place={faces.place(slot.id)}
        />
      ) : null}
      <Refusal error={pick.make.error} />
    </form>
  );
}

type PickFieldsProps = {
  readonly pick: ReturnType<typeof usePick>;
  readonly chosen: CandidateLine | undefined;
  readonly hint: string;
  readonly place: number;
};

/** Why, whether it is a preference, and the two ways to fill a place or leave it empty. */
function PickFields({ pick, chosen, hint, place }: PickFieldsProps) {
  const { unexamined, asked, make } = pick;
  return (
    <>
      <FieldText
        label="Why"
        hint="Goes into the record."
        value={pick.reason}
        onChange={pick.setReason}
        kind="lines"
        maxLength={500}
      />
      <FieldTick
        label="This is a preference between puppies the scores do not tell apart"
        hint={hint}
        ticked={pick.preference}
        onChange={pick.setPreference}
      />
      {chosen && unexamined.length > 0 ? (
        <KnowingTick
          name={chosen.puppy.name}
          unexamined={unexamined}
          ticked={!asked}
          onChange={(ticked) => pick.setKnowingOf(ticked ? chosen.puppy.id : '')}
        />
      ) : null}
      <div>
        <Button type="submit" tone="main" busy={make.isPending} disabled={!chosen || asked}>
          {chosen ? `Pick ${chosen.puppy.name} for place ${place}` : 'Choose a puppy first'}
        </Button>
      </div>
      <Confirm
        words="Leave this place empty"
        doIt="Yes, nobody takes it"
        busy={make.isPending}
        onConfirm={() => pick.decide(null)}
      >
        <p>
          For when nobody fits, or whoever has this place waives it. The next place comes up; the reason above goes into
          the record.
        </p>
      </Confirm>
    </>
  );
}

function preferenceHint(equal: boolean, close: boolean): string {
  if (equal)
    return 'In most readings the candidates lie within half a step of each other, so this stands ticked. Take it away only if the pick rests on something else.';
  return close
    ? 'This place is a close call, so that is a usual answer.'
    : 'The scores lean to one puppy here; tick it only if that is what it is.';
}

type KnowingProps = {
  readonly name: string;
  readonly unexamined: readonly string[];
  readonly ticked: boolean;
  readonly onChange: (ticked: boolean) => void;
};

/** A show or breeding keep is picked knowing what nobody looked at (SA1). */
function KnowingTick({ name, unexamined, ticked, onChange }: KnowingProps) {
  return (
    <FieldTick
      label={`Keep ${name} although nobody examined: ${checkNames(unexamined)}`}
      hint="Have them looked at first where you can. The record says that they were open when the pick was made."
      ticked={ticked}
      onChange={onChange}
    />
  );
}

/** The owner takes back the last pick, on the record, until the record is sealed. */
function TakeBack({ revealed, faces }: DecideProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const takeBack = useMutation(
    trpc.decision.takeBack.mutationOptions({ onSuccess: () => queries.invalidateQueries() }),
  );
  const { decisions } = revealed.decision;
  const slot = evaluation.slots.findLast(({ id }) => decisions.some((one) => one.slotId === id));
  const last = decisions.find((one) => one.slotId === slot?.id);
  if (!slot || !last || evaluation.phase !== 'deciding' || !evaluation.viewer.owner) return null;
  const what = `place ${faces.place(slot.id)}, ${last.puppyId === null ? 'left empty' : faces.puppyName(last.puppyId)}`;
  return (
    <>
      <Confirm
        key={`${slot.id} ${last.at}`}
        words={`Take back the last pick: ${what}`}
        doIt="Take it back"
        busy={takeBack.isPending}
        onConfirm={() => takeBack.mutate({ id: evaluation.id })}
      >
        <p>The place opens again. That it was picked and taken back stays in the record.</p>
      </Confirm>
      <Refusal error={takeBack.error} />
    </>
  );
}

/** Whose turn it is, in one sentence. */
function waitingForWords({ evaluation, revealed, faces }: DecideGround): string {
  const { nextSlotId, mayDecide } = revealed.decision;
  if (evaluation.phase === 'sealed') return 'All picks are made and sealed.';
  if (evaluation.slots.length === 0) return 'No place was set up, so there is nothing to pick.';
  const slot = nextSlotId === null ? undefined : faces.slot(nextSlotId);
  if (!slot) return 'Every place is picked.';
  if (evaluation.imported)
    return `Place ${faces.place(slot.id)} and those after it were not picked when the file was written.`;
  if (isRescoring(evaluation)) return 'A second round is under way: picks wait until it is revealed.';
  if (evaluation.lookOpen) return 'A second look is open: picks wait until it is closed.';
  const turn = `Place ${faces.place(slot.id)} is up: ${slot.taker}.`;
  return mayDecide
    ? `${turn} You can enter the pick.`
    : `${turn} ${slot.seatId === null ? 'The owner enters the pick.' : 'Its own seat or the owner enters the pick.'}`;
}
