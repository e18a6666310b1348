'use client';

import type { BoardView } from '#lib/contract/boardView';
import { checkNames, checkState, noHoldSentence, unexaminedChecks } from '#lib/evaluation/checksMade';
import { structureAlone } from '#lib/sheet/cautions';
import { readings } from '#lib/reconcile/sentences/readings';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { type Revealed, useRevealed } from '../_evaluation/useRevealed';
import { DataTable } from '../_parts/DataTable';
import { Loading } from '../_parts/Loading';
import { MeritPicture } from '../_parts/MeritPicture';
import { Refusal } from '../_parts/Refusal';
import { Sentence } from '../_parts/Sentence';
import { signed } from '../_parts/figureWords';
import { slotTerms, slotWords } from '../_parts/slotWords';
import { capital, purposeWords } from '../_parts/textWords';
import { AddendumLines } from '../_result/AddendumLines';
import { AnswersToHold } from '../_result/BesidePuppy';
import { ChoiceList } from '../_result/ChoiceList';
import { type AnswerGroup, answerGroups } from '../_result/CheckFindings';
import { LookAnswers, lookOutcomeWords } from '../_result/LookAnswers';
import { CardNotes, NoteList } from '../_result/NoteList';
import { AgreementTable, byPurpose, type PurposeResult, RankTable } from '../_result/ResultTables';
import { dayLines } from '../_result/dayLines';
import { MadePick } from '../decide/MadePick';
import { AddendaOfRecord } from './AddendaOfRecord';
import type { RecordProps } from './FactsOfRecord';
import { RecordSection } from './RecordSection';
import { ScoresOfRecord, WeightsOfRecord } from './ScoresOfRecord';
import styles from './record.module.css';

type ResultProps = RecordProps & { readonly revealed: Revealed };

/** All that exists from the reveal on, purposes as separate orders. */
export function ResultOfRecord(props: RecordProps) {
  const evaluation = useEvaluation();
  const asked = useRevealed(evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting') return <Loading what="the result" />;
  const { board } = asked.revealed;
  const all = { ...props, revealed: asked.revealed };
  return (
    <>
      <DecisionsOfRecord {...all} />
      <PlacesOfRecord {...all} />
      <HoldsOfRecord {...all} />
      <ChecksOfRecord {...all} />
      <BehaviourOfRecord {...all} />
      {byPurpose(board.purposes).map((result) => (
        <OrderOfRecord key={result.key} result={result} faces={props.faces} />
      ))}
      <WeightsOfRecord faces={props.faces} />
      <RecordSection id="agreement" title="How far the panel agreed">
        <p>The word for agreement is decided on an interval; a litter is small, so it often says too few data.</p>
        <AgreementTable board={board} faces={props.faces} />
        <RecordLines lines={board.evaluators.map(({ sentence }) => sentence)} />
      </RecordSection>
      <ScoresOfRecord board={board} faces={props.faces} />
      {board.notes.length > 0 ? (
        <RecordSection id="card-notes" title="Notes on the cards">
          <CardNotes board={board} faces={props.faces} />
        </RecordSection>
      ) : null}
      <RecordSection id="blind" title="Blind to">
        <RecordLines lines={board.blindTo} />
      </RecordSection>
      <RecordSection id="day" title="On the day">
        <RecordLines
          lines={[
            ...dayLines(board, props.faces, evaluation.plan),
            `Numbers by engine version ${board.engineVersion}.`,
          ]}
        />
      </RecordSection>
      <AddendaOfRecord revealed={asked.revealed} faces={props.faces} />
    </>
  );
}

/** Sentences of the record, one under the other. */
function RecordLines({ lines }: { readonly lines: readonly string[] }) {
  return (
    <ul className={`points ${styles.lines}`}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

/** Who chose what, why, whether it followed the panel, and what stood beside the puppy. */
function DecisionsOfRecord({ revealed, faces }: ResultProps) {
  const evaluation = useEvaluation();
  if (evaluation.slots.length === 0) return null;
  return (
    <RecordSection id="decisions" title="Decisions">
      <ol className="list stack gap-12">
        {evaluation.slots.map((slot) => {
          const made = revealed.decision.decisions.find((one) => one.slotId === slot.id);
          return (
            <li key={slot.id} className={`stack gap-4 ${styles.place}`}>
              <h3>
                Place {faces.place(slot.id)}: {slot.taker}
              </h3>
              <p className="small">{capital(slotTerms(slot))}</p>
              {made ? <MadePick decision={made} revealed={revealed} faces={faces} /> : <p>Not picked.</p>}
            </li>
          );
        })}
      </ol>
    </RecordSection>
  );
}

/** Holds, and the veterinary answers recorded on them word for word, with what was chosen on each. */
function HoldsOfRecord({ revealed, faces }: ResultProps) {
  const evaluation = useEvaluation();
  const { holds } = revealed.decision;
  return (
    <RecordSection id="holds" title="Holds and veterinary answers">
      {holds.length === 0 ? (
        <p>{noHoldSentence(evaluation, revealed.board.checks)}</p>
      ) : (
        <DataTable
          caption="Holds on a show or breeding keep"
          heads={['Puppy', 'Check', 'What the seats found', 'Hold', 'Veterinary answers, newest first']}
          rows={holds.map(({ puppyId, check, answers, said, stands }) => ({
            key: `${puppyId} ${check}`,
            head: faces.puppyName(puppyId),
            cells: [
              capital(checkNames([check])),
              answers.join('; '),
              stands ? 'stands' : 'cleared',
              said.length === 0 ? 'none' : <AnswersToHold key="said" said={said} />,
            ],
          }))}
        />
      )}
    </RecordSection>
  );
}

/** How puppies behave, by whoever lives with them: beside the result, in no number of it. */
function BehaviourOfRecord({ revealed, faces }: ResultProps) {
  const notes = revealed.addenda.filter(({ kind }) => kind === 'behaviour');
  return (
    <RecordSection id="behaviour" title="How they behave">
      <p>{structureAlone}</p>
      {notes.length === 0 ? <p>Nothing was written down.</p> : <AddendumLines addenda={notes} faces={faces} />}
    </RecordSection>
  );
}

/** Checks puppy by puppy: what was examined and by whom, what nobody examined, and what differs from normal in full. */
function ChecksOfRecord({ revealed, faces }: ResultProps) {
  const { puppies, sheet } = useEvaluation();
  const { checks } = revealed.board;
  if (sheet.checks.length === 0) return null;
  return (
    <RecordSection id="checks" title="Checks">
      <DataTable
        caption="What the seats found"
        heads={['Puppy', 'Examined and normal, by whom', 'Anything else, with who said so', 'Examined by nobody']}
        rows={puppies.map((puppy) => {
          const lines = checks
            .filter((line) => line.puppy === puppy.id)
            .map((line) => ({ line, state: checkState(line.check, puppy.sex, line.answers) }));
          const normal = lines
            .filter(({ state }) => state === 'normal')
            .map(({ line }) => `${checkName(line.check)} (${told(answerGroups(line, faces))})`);
          const rest = lines
            .filter(({ state }) => state === 'found')
            .map(
              ({ line }) =>
                `${checkName(line.check)}: ${answerGroups(line, faces)
                  .map(({ words, seats }) => `${words} (${seats.join(', ')})`)
                  .join('; ')}`,
            );
          return {
            key: puppy.id,
            head: puppy.name,
            cells: [
              normal.join('; ') || 'none',
              rest.join('. ') || 'nothing found',
              checkNames(unexaminedChecks(puppy, sheet.checks, checks)) || 'none',
            ],
          };
        })}
      />
    </RecordSection>
  );
}

const checkName = (key: string) => checkByKey(key)?.name.toLowerCase() ?? key;

/** Who examined; where normal is more than one thing, which. */
function told(groups: readonly AnswerGroup[]): string {
  const examined = groups.filter((group) => group.examined);
  return examined.length === 1
    ? examined.flatMap(({ seats }) => seats).join(', ')
    : examined.map(({ words, seats }) => `${words}: ${seats.join(', ')}`).join('; ');
}

/** One purpose's order: its sentence, its picture, and its figures with intervals and the chance of every rank. */
function OrderOfRecord({ result, faces }: { readonly result: PurposeResult; readonly faces: Faces }) {
  const name = (id: string) => faces.puppyName(id);
  const purpose = purposeWords[result.key];
  return (
    <RecordSection id={`order-${result.key}`} title={`Order for a ${purpose}`}>
      <Sentence>{result.sentence}</Sentence>
      <MeritPicture merit={result.merit} puppyOf={(id) => faces.puppy(id)} label={result.sentence} />
      {result.key === 'keep' ? null : <p>{structureAlone}</p>}
      {result.meanSentence === null ? null : <p>{result.meanSentence}</p>}
      <DataTable
        figures
        caption={`Merit for a ${purpose}, in points from the litter mean`}
        heads={['Puppy', 'Estimate', '90 of 100 readings', 'First in', 'Plain mean']}
        rows={result.merit.map((one) => ({
          key: one.puppy,
          head: name(one.puppy),
          cells: [
            signed(one.estimate),
            `${signed(one.low)} to ${signed(one.high)}`,
            `${readings(one.ranks[0] ?? 0)} of 100`,
            one.mean === null ? 'not judged' : signed(one.mean),
          ],
        }))}
      />
      <RankTable caption={`Chance of each rank for a ${purpose}`} merit={result.merit} faces={faces} />
    </RecordSection>
  );
}

/** The pick order as the scores saw it: close calls, what was said about them, and the second looks. */
function PlacesOfRecord({ revealed, faces }: ResultProps) {
  const evaluation = useEvaluation();
  const { board, looks, notes } = revealed;
  return (
    <RecordSection id="places" title="Why: place by place">
      {board.slots.length === 0 ? <p>No place was set up.</p> : null}
      {board.slots.map((slot) => {
        const place = evaluation.slots.find((one) => one.id === slot.slotId);
        return (
          <div key={slot.slotId} className={`stack gap-6 ${styles.place}`}>
            <h3>
              Place {faces.place(slot.slotId)}
              {slot.close ? ', a close call' : ''}
            </h3>
            {place ? <p className="small">{slotWords(place)}</p> : null}
            <p>{slot.sentence}</p>
            {slot.looks.used > 0 ? <p>{slot.looks.sentence}</p> : null}
            <OwnChoicesOfRecord slotId={slot.slotId} board={board} faces={faces} />
            <NoteList notes={notes.filter((note) => note.slotId === slot.slotId)} faces={faces} />
            {looks
              .filter((look) => look.slotId === slot.slotId)
              .map((look) => (
                <div key={look.id}>
                  <p>{lookOutcomeWords(look, faces)}</p>
                  <LookAnswers look={look} faces={faces} />
                </div>
              ))}
          </div>
        );
      })}
      <NoteList notes={notes.filter((note) => note.slotId === null)} faces={faces} />
    </RecordSection>
  );
}

/** What each seat had chosen for a place before it locked. */
function OwnChoicesOfRecord({
  slotId,
  board,
  faces,
}: {
  readonly slotId: string;
  readonly board: BoardView;
  readonly faces: Faces;
}) {
  const choices = board.choices.filter((one) => one.slotId === slotId);
  if (choices.length === 0) return null;
  return (
    <>
      <p className="small">Chosen by each seat before it locked, outside every order:</p>
      <ChoiceList choices={choices} faces={faces} />
    </>
  );
}
