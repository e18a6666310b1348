'use client';

import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { AgreementTable } from '../board/AgreementTable';
import { byPurpose } from '../board/byPurpose';
import { CardNotes } from '../board/CardNotes';
import { dayLines } from '../board/dayLines';
import { type Revealed, useRevealed } from '../board/useRevealed';
import { ChecksOfRecord } from './ChecksOfRecord';
import { DecisionsOfRecord } from './DecisionsOfRecord';
import type { RecordProps } from './FactsOfRecord';
import { HoldsOfRecord } from './HoldsOfRecord';
import { OrderOfRecord } from './OrderOfRecord';
import { PlacesOfRecord } from './PlacesOfRecord';
import { RecordLines } from './RecordLines';
import { RecordSection } from './RecordSection';

export type ResultProps = RecordProps & { readonly revealed: Revealed };

/** All that exists from the reveal on, purposes as separate orders. */
export function ResultOfRecord(props: RecordProps) {
  const asked = useRevealed(props.evaluation.id);
  if (asked.state === 'refused') return <Refusal error={asked.error} />;
  if (asked.state === 'waiting') return <Loading what="the result" />;
  const { board } = asked.revealed;
  const all = { ...props, revealed: asked.revealed };
  return (
    <>
      <RecordSection id="blind" title="Blind to">
        <RecordLines lines={board.blindTo} />
      </RecordSection>
      {byPurpose(board.purposes).map((result) => (
        <OrderOfRecord key={result.key} result={result} faces={props.faces} />
      ))}
      <PlacesOfRecord {...all} />
      <DecisionsOfRecord {...all} />
      <HoldsOfRecord {...all} />
      <ChecksOfRecord {...all} />
      <RecordSection id="agreement" title="How far the panel agreed">
        <p>The word for agreement is decided on an interval; a litter is small, so it often says too few data.</p>
        <AgreementTable board={board} faces={props.faces} />
        <RecordLines lines={board.evaluators.map(({ sentence }) => sentence)} />
      </RecordSection>
      {board.notes.length > 0 ? (
        <RecordSection id="card-notes" title="Notes on the cards">
          <CardNotes board={board} faces={props.faces} />
        </RecordSection>
      ) : null}
      <RecordSection id="day" title="On the day">
        <RecordLines lines={[...dayLines(board, props.faces, props.evaluation.plan), `Numbers by engine version ${board.engineVersion}.`]} />
      </RecordSection>
    </>
  );
}
