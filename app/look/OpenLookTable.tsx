'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, type ReactNode, useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import { type Criterion, views } from '#lib/sheet/criterion';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Disclosure } from '../_parts/Disclosure';
import { Field } from '../_parts/Field';
import fieldStyles from '../_parts/Field.module.css';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { Refusal } from '../_parts/Refusal';
import { viewWords } from '../_parts/textWords';
import { SideBySide } from '../photos/SideBySide';
import styles from './look.module.css';

type OpenLookProps = { readonly look: LookView; readonly faces: Faces };
/** The way to the next pair without an answer; null where there is none. */
type NextPair = { readonly words: string; readonly go: () => void } | null;

/** One pair of the open batch: who stands where, and one's own private answer. Nothing of others. */
export function OpenLookTable({ next, ...props }: OpenLookProps & { readonly next: NextPair }) {
  const { look, faces } = props;
  const [left, right] = sidesOf(look, faces);
  if (!left || !right) return null;
  const sides = (
    <b>
      {left.name} on the left, {right.name} on the right
    </b>
  );
  return (
    <section aria-labelledby="open-look" className="stack gap-16">
      <h3 id="open-look">
        Second look: {left.name} and {right.name}
      </h3>
      {look.medium === 'table' ? (
        <p>Set up both at once, side by side: {sides}, as you see them.</p>
      ) : (
        <p>From photographs, the same view of both: {sides}, on your screen.</p>
      )}
      {look.repeat ? <p>They have changed places since the last look, so that the place cannot decide.</p> : null}
      <div className="grid gap-12 halves">
        <Side side="Left" puppy={left} />
        <Side side="Right" puppy={right} />
      </div>
      <LookPictures look={look} pair={[left.id, right.id]} />
      {look.mayAnswer ? <LookAnswerForm {...props} left={left} right={right} next={next} /> : null}
      <p className="small">
        Your answer is yours alone. {look.state === 'open' ? 'Until the batch closes' : 'Until it is shown'} nobody sees
        any answer, nor how many there are; what you note, mark or ask meanwhile waits as well.
      </p>
    </section>
  );
}

/** What a look from photographs is answered from; folded away where both puppies stand there. */
function LookPictures({ look, pair }: Pick<OpenLookProps, 'look'> & { readonly pair: readonly string[] }) {
  const pictures = <SideBySide key={look.id} puppyIds={pair} />;
  if (look.medium === 'photographs') return pictures;
  return (
    <Disclosure bare words="Their pictures side by side">
      {pictures}
    </Disclosure>
  );
}

function Side({ side, puppy }: { readonly side: string; readonly puppy: PuppyFace }) {
  return (
    <div className={`sheet ${styles.side}`}>
      <p className="small">{side}</p>
      <PuppyIdentity puppy={puppy} level="h3" />
    </div>
  );
}

function sidesOf(look: LookView, faces: Faces): readonly (PuppyFace | undefined)[] {
  const other = look.leftPuppyId === look.firstPuppyId ? look.secondPuppyId : look.firstPuppyId;
  return [faces.puppy(look.leftPuppyId), faces.puppy(other)];
}

type FormProps = OpenLookProps & { readonly left: PuppyFace; readonly right: PuppyFace; readonly next: NextPair };

/** Three big keys, the deciding criterion if one likes, and one press to give the answer: the last one closes the batch. */
function LookAnswerForm({ look, faces, left, right, next }: FormProps) {
  const evaluation = useEvaluation();
  const [choice, setChoice] = useState<Choice | null>(look.own?.choice ?? null);
  const [criterion, setCriterion] = useState(look.own?.criterion ?? '');
  const answer = useLookAnswer(evaluation.id, look.id);
  const choiceOf = (puppy: PuppyFace): Choice => (puppy.id === look.firstPuppyId ? 'first' : 'second');
  const given = look.own;
  const changed = given === null || given.choice !== choice || (given.criterion ?? '') !== criterion;
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (choice !== null) answer.give({ choice, criterion: criterion === '' ? null : criterion });
  };
  return (
    <form onSubmit={send} className="tall stack gap-14 ">
      <fieldset className="grid gap-10 halves">
        <legend className={styles.question}>Which is better set up for this place, on structure alone?</legend>
        {[left, right].map((puppy) => (
          <Key key={puppy.id} chosen={choice === choiceOf(puppy)} onChoose={() => setChoice(choiceOf(puppy))}>
            <CollarChip collar={puppy.collar} size={22} words={false} />
            {puppy.name}
          </Key>
        ))}
        <Key wide chosen={choice === 'tie'} onChoose={() => setChoice('tie')}>
          I cannot separate them
        </Key>
      </fieldset>
      <CriterionChoice criteria={evaluation.sheet.criteria} chosen={criterion} onChoose={setCriterion} />
      <Button type="submit" tone="main" busy={answer.busy} disabled={choice === null || !changed}>
        {given === null ? 'Give my answer' : 'Change my answer'}
      </Button>
      <p role="status">{ownAnswerWords({ look, faces, busy: answer.busy })}</p>
      {given !== null && !changed && next ? (
        <Button tone="main" onClick={next.go}>
          {next.words}
        </Button>
      ) : null}
      <Refusal error={answer.error} />
    </form>
  );
}

type KeyProps = {
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly wide?: boolean;
  readonly children: ReactNode;
};

function Key({ chosen, onChoose, wide = false, children }: KeyProps) {
  return (
    <label className={`stack positioned ${styles.key} ${wide ? `whole ${styles.wide}` : ''}`}>
      <input type="radio" className="over" name="choice" checked={chosen} onChange={onChoose} />
      <span className={`key row gap-12 ${styles.words}`}>{children}</span>
    </label>
  );
}

/** Where one's own answer is: not given, on its way, or on the server and what it says. */
function ownAnswerWords({
  look,
  faces,
  busy,
}: {
  readonly look: LookView;
  readonly faces: Faces;
  readonly busy: boolean;
}): string {
  if (busy) return 'On its way to the server…';
  if (look.own === null) return 'You have not answered yet.';
  const { choice, criterion } = look.own;
  const said =
    choice === 'tie'
      ? 'you cannot separate them'
      : faces.puppyName(choice === 'first' ? look.firstPuppyId : look.secondPuppyId);
  const why = criterion === null ? '' : `, decided by ${faces.criterionName(criterion).toLowerCase()}`;
  return `On the server: ${said}${why}. You can change it until the batch closes.`;
}

type CriterionChoiceProps = {
  readonly criteria: readonly Criterion[];
  readonly chosen: string;
  readonly onChoose: (key: string) => void;
};

/** What decided it, if one thing did; grouped as one goes round a puppy. */
function CriterionChoice({ criteria, chosen, onChoose }: CriterionChoiceProps) {
  return (
    <Field label="What decided it (if one thing did)">
      {(ids) => (
        <select
          {...ids}
          className={`key ${fieldStyles.control}`}
          value={chosen}
          onChange={(event) => onChoose(event.target.value)}
        >
          <option value="">No single thing</option>
          {views.map((view) => {
            const group = criteria.filter((criterion) => criterion.view === view);
            return group.length === 0 ? null : (
              <optgroup key={view} label={viewWords[view]}>
                {group.map(({ key, name }) => (
                  <option key={key} value={key}>
                    {name}
                  </option>
                ))}
              </optgroup>
            );
          })}
        </select>
      )}
    </Field>
  );
}

type Choice = NonNullable<LookView['own']>['choice'];
type Answer = { readonly choice: Choice; readonly criterion: string | null };

/** Sends one's own answer. The same answer pressed again after a lost link keeps its id, so that it cannot count twice (SC2). */
function useLookAnswer(evaluationId: string, lookId: string) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [sent, setSent] = useState<{ readonly answer: Answer; readonly id: string } | null>(null);
  const mutation = useMutation(
    trpc.look.answer.mutationOptions({
      onSuccess: () => {
        setSent(null);
        return queries.invalidateQueries();
      },
    }),
  );
  const give = (answer: Answer) => {
    const again = sent !== null && sent.answer.choice === answer.choice && sent.answer.criterion === answer.criterion;
    const id = again ? sent.id : freshId();
    setSent({ answer, id });
    mutation.mutate({ id: evaluationId, answer: { id, lookId, ...answer, madeAt: Date.now() } });
  };
  return { give, busy: mutation.isPending, error: mutation.error };
}
