'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { Cell } from '#lib/contract/plan';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { counted } from '../_parts/textWords';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { Disclosure } from '../_parts/Disclosure';
import type { Faces } from '../_evaluation/facesOf';
import styles from './board.module.css';
import type { Revealed } from '../_evaluation/useRevealed';

type OpeningProps = { readonly revealed: Revealed; readonly faces: Faces };
const MOST = 60;

/** The owner asks chosen questions again, blind: what could change a pick stands ticked; she may take away and add. Once, and before any pick. */
export function SecondRoundOpening({ revealed, faces }: OpeningProps) {
  const evaluation = useEvaluation();
  const { round, phase, viewer } = evaluation;
  const proposed = revealed.board.secondRoundCells.slice(0, MOST);
  const [added, setAdded] = useState<readonly Cell[]>([]);
  const [without, setWithout] = useState<readonly string[]>([]);
  if (
    !viewer.owner ||
    phase !== 'deciding' ||
    round?.occasion !== 'first' ||
    round.state !== 'revealed' ||
    revealed.decision.decisions.length > 0
  )
    return null;
  const offered = [...proposed, ...added.filter((cell) => !proposed.some((one) => keyOf(one) === keyOf(cell)))];
  const chosen = offered.filter((cell) => !without.includes(keyOf(cell)));
  const words = ({ puppyId, criterion }: Cell) =>
    `${faces.puppyName(puppyId)}, ${faces.criterionName(criterion).toLowerCase()}`;
  const tick = (cell: Cell, ticked: boolean) =>
    setWithout(ticked ? without.filter((key) => key !== keyOf(cell)) : [...without, keyOf(cell)]);
  return (
    <Disclosure words="A second round on these questions">
      <p>
        After the talk every seat scores the questions below once more, blind to the others and to its own first scores.
        The first scores stay; the board then shows both. There is one second round, before the first pick.
      </p>
      {proposed.length === 0 ? (
        <p>No question that could still change a pick is worth asking again, so none is proposed. You may add some.</p>
      ) : null}
      <div>
        {offered.map((cell) => (
          <FieldTick
            key={keyOf(cell)}
            label={words(cell)}
            ticked={!without.includes(keyOf(cell))}
            onChange={(ticked) => tick(cell, ticked)}
          />
        ))}
      </div>
      <AddCell
        full={chosen.length >= MOST}
        onAdd={(cell) => {
          setAdded([...added.filter((one) => keyOf(one) !== keyOf(cell)), cell]);
          tick(cell, true);
        }}
      />
      <OpenIt cells={chosen} lookOpen={revealed.looks.some((look) => look.state !== 'revealed')} />
    </Disclosure>
  );
}

const keyOf = ({ puppyId, criterion }: Cell) => `${puppyId} ${criterion}`;

type AddProps = { readonly full: boolean; readonly onAdd: (cell: Cell) => void };

function AddCell({ full, onAdd }: AddProps) {
  const evaluation = useEvaluation();
  const puppies = evaluation.puppies.filter((one) => !one.withdrawn).map(({ id, name }) => ({ key: id, words: name }));
  const criteria = evaluation.sheet.criteria.map(({ key, name }) => ({ key, words: name }));
  const [puppyId, setPuppy] = useState(puppies[0]?.key ?? '');
  const [criterion, setCriterion] = useState(criteria[0]?.key ?? '');
  return (
    <div className={`grid gap-12 ${styles.add}`}>
      <FieldChoice label="Puppy to ask about" value={puppyId} options={puppies} onChange={setPuppy} />
      <FieldChoice label="Criterion to ask about" value={criterion} options={criteria} onChange={setCriterion} />
      <Button disabled={full} onClick={() => onAdd({ puppyId, criterion })}>
        Add this question
      </Button>
    </div>
  );
}

type OpenProps = { readonly cells: readonly Cell[]; readonly lookOpen: boolean };

function OpenIt({ cells, lookOpen }: OpenProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const open = useMutation(
    trpc.evaluation.openSecondRound.mutationOptions({ onSuccess: () => queries.invalidateQueries() }),
  );
  if (lookOpen) return <p>A second look is open. The second round can be opened when it has closed.</p>;
  if (cells.length === 0) return <p>Tick or add at least one question to open a second round.</p>;
  const inUse = refusalDetails(open.error)?.code === 'in-use';
  return (
    <>
      <Confirm
        words={`Open a second round: ${counted(cells.length, 'question')}`}
        doIt="Open it now"
        busy={open.isPending}
        onConfirm={() => open.mutate({ id: evaluation.id, cells: [...cells] })}
      >
        <p>
          Every scoring seat is asked these questions on its scoring page. Picks and second looks wait until it is
          revealed. It cannot be taken back.
        </p>
      </Confirm>
      <Refusal
        error={open.error}
        words={inUse ? 'A pick has been made: take it back first, or decide without a second round.' : null}
      />
    </>
  );
}
