'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { type FormEvent, useState } from 'react';
import type { EvaluationView, PuppyFace, SlotView } from '#lib/contract/evaluationView';
import { readings } from '#lib/reconcile/sentences/readings';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { useTRPC } from '../_data/trpc';
import type { Faces } from '../_evaluation/facesOf';
import { isRescoring } from '../_evaluation/isRescoring';
import type { Revealed } from '../_evaluation/useRevealed';
import { Button } from '../_parts/Button';
import { ChanceList } from '../_parts/ChanceList';
import { CollarChip } from '../_parts/CollarChip';
import { Confirm } from '../_parts/Confirm';
import { Disclosure } from '../_parts/Disclosure';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { collarWords } from '../_parts/collarWords';
import { capital } from '../_parts/textWords';
import { slotTerms } from '../_result/slotWords';
import { chancesOf } from '../board/PlaceCard';
import { MadePick } from './MadePick';
import styles from './decide.module.css';

export type DecideProps = { readonly evaluation: EvaluationView; readonly revealed: Revealed; readonly faces: Faces };

/** Every place in order: made, up now, or still to come. */
export function PicksSection(props: DecideProps) {
  const { evaluation, revealed, faces } = props;
  const { decisions, nextSlotId } = revealed.decision;
  return (
    <section aria-labelledby="picks" className={styles.picksSectionSection}>
      <h2 id="picks">The pick order</h2>
      <p role="status">{waitingForWords(props)}</p>
      <ol className={styles.places}>
        {evaluation.slots.map((slot) => {
          const made = decisions.find((one) => one.slotId === slot.id);
          const up = slot.id === nextSlotId && evaluation.phase === 'deciding';
          return (
            <li key={slot.id}>
              <article aria-label={`Place ${faces.place(slot.id)}`} className={up ? styles.up : styles.place}>
                <h3>
                  Place {faces.place(slot.id)}: {slot.taker}
                </h3>
                <p className="small">{capital(slotTerms(slot))}</p>
                {made ? <MadePick decision={made} faces={faces} /> : null}
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
function PlaceToCome({ slotId, evaluation, revealed, faces }: DecideProps & { readonly slotId: string }) {
  const result = revealed.board.slots.find((one) => one.slotId === slotId);
  return (
    <>
      <p>Not picked{evaluation.phase === 'deciding' ? ' yet' : ''}.</p>
      {result && evaluation.phase === 'deciding' && result.chances.length > 0 ? (
        <Disclosure words="How it stands">
          <p>{result.sentence}</p>
          <ChanceList chances={chancesOf(result.chances, faces)} />
          <p className="small">Each place before it counts as filled by its pick, or until then by its likeliest puppy.</p>
        </Disclosure>
      ) : null}
    </>
  );
}

type PickFormProps = DecideProps & { readonly slot: SlotView };

/** The place that is up: the panel's chances, who fits, and for those who may the pick with its reason. */
function PickForm({ slot, ...props }: PickFormProps) {
  const { evaluation, revealed, faces } = props;
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [puppyId, setPuppyId] = useState('');
  const [reason, setReason] = useState('');
  const make = useMutation(trpc.decision.make.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const lines = candidateLines(slot, props);
  const chosen = lines.find((line) => line.puppy.id === puppyId && line.barred === null);
  const mayDecide = revealed.decision.mayDecide && !isRescoring(evaluation);
  const result = revealed.board.slots.find((one) => one.slotId === slot.id);
  const equal = result?.looks.verdict === 'equalWithinHalf';
  const open = result?.close === true && result.looks.verdict === 'goOn';
  const [ticked, setPreference] = useState<boolean | null>(null);
  const preference = ticked ?? equal;
  const decide = (chosenId: string | null) => make.mutate({ id: evaluation.id, slotId: slot.id, puppyId: chosenId, reason, preference: preference && chosenId !== null });
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (chosen) decide(chosen.puppy.id);
  };
  return (
    <form onSubmit={send} className={styles.pickFormForm}>
      {result ? <p>{result.sentence}</p> : null}
      {result && result.looks.used > 0 ? <p>{result.looks.sentence}</p> : null}
      {equal ? <p className={styles.equal}>The scores and looks have said what they can. What is left is a preference: say whose it is and why. It goes into the record as a preference, not as evidence.</p> : null}
      {open && evaluation.viewer.leads && mayDecide ? (
        <p>
          <Link href={`/look?id=${evaluation.id}&slot=${slot.id}`}>A second look first</Link>
        </p>
      ) : null}
      <CandidateChoice lines={lines} chosen={chosen?.puppy.id ?? ''} onChoose={setPuppyId} readOnly={!mayDecide} />
      {mayDecide ? (
        <>
          <FieldText label="Why" hint="Goes into the record." value={reason} onChange={setReason} kind="lines" maxLength={500} />
          <FieldTick
            label="This is a preference between puppies the scores do not tell apart"
            hint={equal ? 'The candidates are within half a step of each other, so this stands ticked. Take it away only if the pick rests on something else.' : result?.close === true ? 'This place is a close call, so that is a usual answer.' : 'The scores lean to one puppy here; tick it only if that is what it is.'}
            ticked={preference}
            onChange={setPreference}
          />
          <div>
            <Button type="submit" tone="main" busy={make.isPending} disabled={!chosen}>
              {chosen ? `Pick ${chosen.puppy.name} for place ${faces.place(slot.id)}` : 'Choose a puppy first'}
            </Button>
          </div>
          <Confirm words="Leave this place empty" doIt="Yes, nobody takes it" busy={make.isPending} onConfirm={() => decide(null)}>
            <p>For when nobody fits, or whoever has this place waives it. The next place comes up; the reason above goes into the record.</p>
          </Confirm>
        </>
      ) : null}
      <Refusal error={make.error} />
    </form>
  );
}

type CandidateChoiceProps = {
  readonly lines: readonly CandidateLine[];
  readonly chosen: string;
  readonly onChoose: (puppyId: string) => void;
  readonly readOnly: boolean;
};

/** The puppies for one place: those that fit to choose from, with the panel's chance; the others with the reason why not. */
function CandidateChoice({ lines, chosen, onChoose, readOnly }: CandidateChoiceProps) {
  const fitting = lines.filter(({ barred }) => barred === null);
  const barred = lines.filter((line) => line.barred !== null);
  return (
    <>
      {fitting.length === 0 ? <p>No puppy fits this place as things stand.</p> : null}
      <fieldset className={styles.choice}>
        <legend className={styles.legend}>Puppies that fit, with the panel’s readings</legend>
        {fitting.map((line) => (
          <label key={line.puppy.id} className={styles.line}>
            {readOnly ? null : <input type="radio" name="puppy" checked={chosen === line.puppy.id} onChange={() => onChoose(line.puppy.id)} />}
            <CollarChip collar={line.puppy.collar} size={20} words={false} />
            <span>
              <b>{line.puppy.name}</b> <span className="small">{`${collarWords(line.puppy.collar)}, ${line.puppy.sex}`}</span>
              {line.holds === '' ? null : <span className={styles.hold}>A check asks for a veterinary answer: {line.holds}</span>}
            </span>
            <span className={`figures ${styles.chance}`}>{line.probability === null ? '' : `${readings(line.probability)} of 100`}</span>
          </label>
        ))}
      </fieldset>
      {barred.length > 0 ? (
        <ul className={styles.barred} aria-label="Puppies that do not fit">
          {barred.map((line) => (
            <li key={line.puppy.id}>
              <b>{line.puppy.name}</b>: {line.barred}
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

type CandidateLine = {
  readonly puppy: PuppyFace;
  /** Chance of being the best for this place; null where the panel gives none. */
  readonly probability: number | null;
  /** Why it cannot be picked, in words; null when it can. */
  readonly barred: string | null;
  /** Standing holds in words, said even where they do not bar this place. */
  readonly holds: string;
};

/** Every puppy for one place: those that fit first, most probable first; the others with the reason why not. */
function candidateLines(slot: SlotView, { evaluation, revealed, faces }: DecideProps): CandidateLine[] {
  const chances = new Map(revealed.board.slots.find((one) => one.slotId === slot.id)?.chances.map(({ puppy, probability }) => [puppy, probability]));
  return evaluation.puppies
    .map((puppy): CandidateLine => {
      const holds = holdWords(puppy.id, revealed.decision.holds);
      const taken = revealed.decision.decisions.find((one) => one.puppyId === puppy.id);
      return {
        puppy,
        probability: chances.get(puppy.id) ?? null,
        holds,
        barred: barredWords(slot, puppy, { holds, takenAt: taken ? faces.place(taken.slotId) : null }),
      };
    })
    .sort((a, b) => Number(a.barred !== null) - Number(b.barred !== null) || (b.probability ?? 0) - (a.probability ?? 0));
}

function barredWords(slot: SlotView, puppy: PuppyFace, { holds, takenAt }: { readonly holds: string; readonly takenAt: number | null }): string | null {
  if (puppy.withdrawn) return 'withdrawn';
  if (takenAt !== null) return `picked for place ${takenAt}`;
  if (slot.sex !== 'any' && slot.sex !== puppy.sex) return `a ${puppy.sex}; this place asks for a ${slot.sex}`;
  return slot.purpose === 'keep' && holds !== '' ? `held by ${holds}` : null;
}

function holdWords(puppyId: string, holds: DecideProps['revealed']['decision']['holds']): string {
  return holds
    .filter((hold) => hold.puppyId === puppyId && hold.cleared === null)
    .map((hold) => `${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check} (${hold.answers.join('; ')})`)
    .join(', ');
}

/** The owner takes back the last pick, on the record, until the record is sealed. */
function TakeBack({ evaluation, revealed, faces }: DecideProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const takeBack = useMutation(trpc.decision.takeBack.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
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
function waitingForWords({ evaluation, revealed, faces }: DecideProps): string {
  const { nextSlotId, mayDecide } = revealed.decision;
  if (evaluation.phase === 'sealed') return 'All picks are made and sealed.';
  if (evaluation.slots.length === 0) return 'No place was set up, so there is nothing to pick.';
  const slot = nextSlotId === null ? undefined : faces.slot(nextSlotId);
  if (!slot) return 'Every place is picked.';
  if (isRescoring(evaluation)) return 'A second round is under way: picks wait until it is revealed.';
  if (evaluation.lookOpen) return 'A second look is open: picks wait until it is closed.';
  const turn = `Place ${faces.place(slot.id)} is up: ${slot.taker}.`;
  return mayDecide ? `${turn} You can enter the pick.` : `${turn} ${slot.seatId === null ? 'The owner enters the pick.' : 'Its own seat or the owner enters the pick.'}`;
}
