'use client';

import { useState } from 'react';
import { type Criterion, labelLimit, nameLimit, textLimit } from '#lib/sheet/criterion';
import { views } from '#lib/sheet/view';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { useFocusFirst } from '../_parts/useFocusFirst';
import { viewWords } from '../_parts/viewWords';
import { type CriterionDraft, criterionDraft, criterionOf, freshCriterion } from './criterionDraft';
import { CriterionEvidence } from './CriterionEvidence';
import { CriterionWords } from './CriterionWords';
import { freshKey } from './freshKey';
import { levelWords } from './criterionWords';
import { criterionFaults, type Faults } from './sheetFaults';
import styles from './Sheet.module.css';

type CriterionFormProps = {
  /** Null for a new one. */
  readonly criterion: Criterion | null;
  readonly taken: readonly string[];
  readonly onKeep: (criterion: Criterion) => void;
  readonly onClose: () => void;
};

const sides = [
  { key: 'one', words: 'one-sided: from low to high' },
  { key: 'two', words: 'two-sided: best in the middle' },
] as const;
const levels = (['low', 'medium', 'high'] as const).map((key) => ({ key, words: levelWords[key] }));

/** Words and kind of one criterion. Nothing is sent from here: it goes into the sheet, which is then saved. */
export function CriterionForm({ criterion, taken, onKeep, onClose }: CriterionFormProps) {
  const [draft, setDraft] = useState<CriterionDraft>(() => (criterion ? criterionDraft(criterion) : freshCriterion));
  const [faults, setFaults] = useState<Faults>(new Map());
  const form = useFocusFirst();
  const set = (part: Partial<CriterionDraft>) => setDraft((before) => ({ ...before, ...part }));
  const keep = () => {
    const built = criterionOf({ ...draft, key: criterion?.key ?? freshKey(draft.name, taken) });
    const found = criterionFaults(built);
    setFaults(found);
    if (found.size === 0) onKeep(built);
  };
  return (
    <form
      ref={form}
      className={styles.criterionForm}
      noValidate
      aria-label={criterion ? `Change ${criterion.name}` : 'New criterion'}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <div className={styles.trio}>
        <FieldText label="Name of the criterion" value={draft.name} maxLength={nameLimit} fault={faults.get('name')} onChange={(name) => set({ name })} />
        <FieldChoice label="Seen" value={draft.view} options={views.map((key) => ({ key, words: viewWords[key] }))} onChange={(view) => set({ view })} />
        <FieldChoice label="Scored" value={draft.twoSided ? 'two' : 'one'} options={sides} onChange={(side) => set({ twoSided: side === 'two' })} />
      </div>
      <CriterionWords draft={draft} faults={faults} limits={{ label: labelLimit, text: textLimit }} onChange={set} />
      <FieldText label="Why it matters" kind="lines" value={draft.why} maxLength={textLimit} fault={faults.get('why')} onChange={(why) => set({ why })} />
      <div className={styles.trio}>
        <FieldChoice label="Steadiness at eight weeks" value={draft.level} options={levels} onChange={(level) => set({ level })} />
        <FieldText label="How far it can be leaned on" value={draft.note} maxLength={textLimit} fault={faults.get('steadiness.note')} onChange={(note) => set({ note })} />
        <FieldText label="What changes later" value={draft.later} maxLength={textLimit} fault={faults.get('later')} onChange={(later) => set({ later })} />
      </div>
      <CriterionEvidence chosen={draft.evidence} fault={faults.get('evidence')} onChange={(evidence) => set({ evidence })} />
      <FieldTick label="By hand only" hint="Not offered to a seat that cannot touch." ticked={draft.handsOnly} onChange={(handsOnly) => set({ handsOnly })} />
      <FieldTick label="Also standing by itself" hint="Asks for a second score, if one likes, of the puppy that nobody holds." ticked={draft.freeStance} onChange={(freeStance) => set({ freeStance })} />
      <div className={styles.actions}>
        <Button type="submit" tone="main">
          {criterion ? 'Keep the change' : 'Put it in the sheet'}
        </Button>
        <Button onClick={onClose}>Leave</Button>
      </div>
    </form>
  );
}
