'use client';

import { useState } from 'react';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { countsOnlyCaution } from '../_parts/textWords';
import { Part } from './Part';
import styles from './setup.module.css';
import type { SetupDraft, SetupView } from './setupDraft';
import type { Change } from './useSetupDraft';

type PlanPartProps = {
  readonly draft: SetupDraft;
  readonly seats: SetupView['seats'];
  readonly fault: string | null;
  readonly change: Change;
};

const kinds = [
  { key: 'panel', words: 'a panel, towards a decision' },
  { key: 'lesson', words: 'a lesson, a learner beside a mentor' },
] as const;

const discussions = [
  { key: 'roles', words: 'seats by their role' },
  { key: 'anonymous', words: 'counts only, no seat named' },
] as const;

const identities = [
  { key: 'shown', words: 'by name and collar' },
  { key: 'coded', words: 'by a code, until the reveal' },
] as const;

const batches = [1, 2, 3, 4, 5, 6].map((count) => ({ key: String(count), words: String(count) }));

/** What else is agreed on beforehand: what it is for, what shows of whom after the reveal, a second showing, the meal, the second looks. */
export function PlanPart({
  draft: {
    plan,
    input: { medium },
  },
  seats,
  fault,
  change,
}: PlanPartProps) {
  const set = (part: Partial<SetupDraft['plan']>) => change({ plan: { ...plan, ...part } });
  const learners = [
    { key: '', words: 'choose a seat' },
    ...seats.filter(({ kind }) => kind !== 'none').map(({ id, label }) => ({ key: id, words: label })),
  ];
  return (
    <Part
      title="Agreed beforehand"
      note="It stands once the round is open. Every seat sees what kind of day it is, what shows of whom afterwards, and the meal; not whether a puppy comes twice."
    >
      <div className={`stack gap-16 ${styles.pair}`}>
        <FieldChoice
          label="What this is"
          value={plan.kind}
          options={kinds}
          onChange={(kind) => set(kind === 'panel' ? { kind, learnerSeatId: null } : { kind })}
        />
        {plan.kind === 'lesson' ? (
          <FieldChoice
            label="Who learns"
            value={plan.learnerSeatId ?? ''}
            options={learners}
            fault={fault}
            hint="Locks first. At the mentor’s lock both see both cards."
            onChange={(key) => set({ learnerSeatId: key === '' ? null : key })}
          />
        ) : null}
        {medium === 'photographs' ? (
          <FieldChoice
            label="Puppies are shown"
            value={plan.identity}
            options={identities}
            onChange={(identity) => set({ identity })}
          />
        ) : null}
        <FieldChoice
          label="Shown after the reveal"
          value={plan.discussion}
          options={discussions}
          onChange={(discussion) => set({ discussion })}
        />
      </div>
      {medium === 'photographs' && plan.identity === 'coded' ? (
        <p className="small">
          Every seat that neither leads nor organises sees letters of its own in place of name, collar and mark. Take
          collars off for the pictures: what a picture shows cannot be hidden. Only you, and whoever leads or organises,
          can then bring pictures.
        </p>
      ) : null}
      {plan.discussion === 'anonymous' ? <p className="warning">{countsOnlyCaution}</p> : null}
      <FieldTick
        label="One puppy is shown twice"
        hint="Drawn by chance when the round opens; it comes again later in the order, under its own collar, and nobody is told beforehand. It shows how far each seat repeats itself. It needs four puppies or more."
        ticked={plan.silentRepeat}
        onChange={(silentRepeat) => set({ silentRepeat })}
      />
      <div className={`stack gap-16 ${styles.pair}`}>
        <MealField hours={plan.hoursSinceMeal} onChange={(hoursSinceMeal) => set({ hoursSinceMeal })} />
        <FieldChoice
          label="Batches of second looks for one place"
          value={String(plan.lookBatches)}
          options={batches}
          hint="When they are used up and no puppy stands clear, the place is not settled, and the board says to whom it leans."
          onChange={(key) => set({ lookBatches: Number(key) })}
        />
      </div>
    </Part>
  );
}

/** Keeps what was typed as it was typed, also while it is no number. */
function MealField({
  hours,
  onChange,
}: {
  readonly hours: number | null;
  readonly onChange: (hours: number | null) => void;
}) {
  const [meal, setMeal] = useState(hours === null ? '' : String(hours));
  return (
    <FieldText
      label="Hours since the last meal"
      kind="number"
      hint="A puppy just fed shows another outline. Leave blank if nobody knows."
      value={meal}
      maxLength={4}
      fault={Number.isNaN(hours) ? 'A number from 0 to 72, or nothing.' : null}
      onChange={(typed) => {
        setMeal(typed);
        onChange(hoursTyped(typed) ?? (typed.trim() === '' ? null : Number.NaN));
      }}
    />
  );
}

/** Hours as typed, with a comma or a point: null for nothing, undefined for what is no number from 0 to 72. */
export function hoursTyped(typed: string): number | null | undefined {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  if (!/^\d{1,2}(\.\d)?$/.test(text)) return undefined;
  const hours = Number(text);
  return hours <= 72 ? hours : undefined;
}
