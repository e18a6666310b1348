'use client';

import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Plan } from '#lib/contract/plan';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { ButtonLink } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { counted, countsOnlyCaution, purposeWords } from '../_parts/textWords';
import { slotWords } from '../_parts/slotWords';
import { mealWords } from '../_parts/timeWords';
import { WithdrawForm } from '../score/WithdrawForm';
import { PanelPart } from './PanelPart';
import { Part } from './Part';
import styles from './setup.module.css';
import type { SetupView } from './setupDraft';
import { weightsWords } from './weights';

type SetupStandingProps = { readonly setup: SetupView };

/** Once the round is open: who is in, who has locked, and what stands. */
export function SetupStanding({ setup }: SetupStandingProps) {
  const evaluation = useEvaluation();
  const { round, phase } = evaluation;
  const open = round?.state === 'open';
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  const locked = scoring.filter((seat) => seat.state === 'locked').length;
  return (
    <>
      <section className="stack gap-12" aria-label="Now">
        <p className={styles.say} role="status">
          {nowWords(evaluation, `${locked} of ${counted(scoring.length, 'seat')}`)}
        </p>
        <div className="tools">
          {phase === 'scoring' || open ? (
            <ButtonLink tone="main" href={`/score?id=${setup.id}`}>
              Go to scoring
            </ButtonLink>
          ) : null}
          {phase === 'scoring' ? null : (
            <ButtonLink tone="main" href={`/board?id=${setup.id}`}>
              Go to the board
            </ButtonLink>
          )}
          {round && round.state !== 'revealed' ? (
            <ButtonLink href={`/paper?id=${setup.id}`}>Paper sheets</ButtonLink>
          ) : null}
          {open ? <ButtonLink href={`/import?id=${setup.id}`}>Bring in typed scores</ButtonLink> : null}
        </div>
      </section>
      <PanelPart setup={setup} owner={evaluation.viewer.owner} late mayAdd={open} />
      <Fixed setup={setup} />
    </>
  );
}

function nowWords({ round, phase }: EvaluationView, lockedOf: string): string {
  if (round?.occasion === 'second' && round.state !== 'revealed')
    return `A second round is ${round.state}: ${lockedOf} locked. The first result stays as it was revealed.`;
  if (phase !== 'scoring') return 'The round is revealed. What was agreed before it stands below.';
  if (round?.state === 'open')
    return `The round is open: ${lockedOf} locked. Who has locked shows, what they scored does not.`;
  return 'The round is closed: no entry counts any more. You reveal it on the scoring page.';
}

function Fixed({ setup }: SetupStandingProps) {
  const evaluation = useEvaluation();
  const { sheet, purposes, slots, puppies } = setup;
  const showings = evaluation.round?.showings ?? [];
  const shown = showings.flatMap(({ puppyId }) => puppies.find((puppy) => puppy.id === puppyId) ?? []);
  return (
    <Part title="What stands" note="Fixed when the round opened.">
      <p>
        {sheet.name}: {counted(sheet.criteria.length, 'criterion', 'criteria')}, scores {sheet.scale.low} to{' '}
        {sheet.scale.high}.
      </p>
      <ul className={`list ${styles.plainList}`}>
        {purposes.map(({ key, weights }) => (
          <li key={key}>
            {purposeWords[key]}: {weightsWords(weights, sheet)}
          </li>
        ))}
      </ul>
      <ul className={`list ${styles.plainList}`}>
        {planWords(setup.plan, setup.seats).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>Pick order</h3>
      {slots.length === 0 ? <p>Empty.</p> : null}
      <ol className={`list ${styles.plainList}`}>
        {slots.map((slot) => (
          <li key={slot.id}>{slotWords(slot)}</li>
        ))}
      </ol>
      <h3>{evaluation.round?.medium === 'photographs' ? 'Puppies' : 'Order of showing'}</h3>
      <ol className={`list ${styles.plainList}`}>
        {shown.map((puppy, place) => (
          <li key={`${puppy.id} ${place}`}>
            {puppy.name} <CollarChip collar={puppy.collar} />
            {puppy.withdrawn ? ' (withdrawn)' : ''}
          </li>
        ))}
      </ol>
      {evaluation.viewer.owner && evaluation.phase === 'scoring' ? <WithdrawForm /> : null}
    </Part>
  );
}

/** What was agreed on beforehand, a sentence each. */
function planWords(
  { kind, learnerSeatId, discussion, identity, silentRepeat, hoursSinceMeal, lookBatches }: Plan,
  seats: SetupView['seats'],
): string[] {
  const learner = seats.find((seat) => seat.id === learnerSeatId)?.label ?? 'nobody yet';
  return [
    kind === 'panel'
      ? 'A panel, towards a decision.'
      : `A lesson: the cards of ${learner} beside those of the other seats, shown at the last of their locks.`,
    discussion === 'roles'
      ? 'After the reveal seats are named by their role.'
      : `After the reveal answers are counted and no seat is named. ${countsOnlyCaution}`,
    ...(identity === 'coded'
      ? ['From photographs, puppies are shown by a code of each seat’s own until the reveal.']
      : []),
    silentRepeat ? 'One puppy comes a second time, drawn when the round opens.' : 'No puppy comes a second time.',
    hoursSinceMeal === null
      ? 'When the litter was last fed is not written down.'
      : `Last fed ${mealWords(hoursSinceMeal)} before.`,
    `Second looks: at most ${counted(lookBatches, 'batch', 'batches')} for one place.`,
  ];
}
