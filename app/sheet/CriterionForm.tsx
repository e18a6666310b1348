'use client';

import { useState } from 'react';
import { type Criterion, labelLimit, nameLimit, textLimit, views } from '#lib/sheet/criterion';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { FieldTick } from '../_parts/FieldTick';
import { useFocusFirst } from '../_parts/useFocusFirst';
import { viewWords } from '../_parts/textWords';
import {
  type CriterionDraft,
  criterionDraft,
  criterionOf,
  evidenceWords,
  freshCriterion,
  levelWords,
} from './criterionDraft';
import styles from './sheet.module.css';
import { criterionFaults, type Faults } from './sheetFaults';

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
      className={`sheet stack gap-16 ${styles.criterionForm}`}
      noValidate
      aria-label={criterion ? `Change ${criterion.name}` : 'New criterion'}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <CriterionKind draft={draft} fault={faults.get('name')} onChange={set} />
      <CriterionWords draft={draft} faults={faults} limits={{ label: labelLimit, text: textLimit }} onChange={set} />
      <FieldText
        label="Why it matters"
        kind="lines"
        value={draft.why}
        maxLength={textLimit}
        fault={faults.get('why')}
        onChange={(why) => set({ why })}
      />
      <CriterionSteadiness draft={draft} faults={faults} onChange={set} />
      <CriterionEvidence
        chosen={draft.evidence}
        fault={faults.get('evidence')}
        onChange={(evidence) => set({ evidence })}
      />
      <FieldTick
        label="By hand only"
        hint="Not offered to a seat that cannot touch."
        ticked={draft.handsOnly}
        onChange={(handsOnly) => set({ handsOnly })}
      />
      <FieldTick
        label="Also standing by itself"
        hint="Asks for a second score, if one likes, of the puppy that nobody holds."
        ticked={draft.freeStance}
        onChange={(freeStance) => set({ freeStance })}
      />
      <div className="tools">
        <Button type="submit" tone="main">
          {criterion ? 'Keep the change' : 'Put it in the sheet'}
        </Button>
        <Button onClick={onClose}>Leave</Button>
      </div>
    </form>
  );
}

type CriterionPartProps = {
  readonly draft: CriterionDraft;
  readonly onChange: (part: Partial<CriterionDraft>) => void;
};

/** Its name, where it is seen, and whether its best lies in the middle. */
function CriterionKind({ draft, fault, onChange }: CriterionPartProps & { readonly fault: string | undefined }) {
  return (
    <div className={`stack gap-16 ${styles.trio}`}>
      <FieldText
        label="Name of the criterion"
        value={draft.name}
        maxLength={nameLimit}
        fault={fault}
        onChange={(name) => onChange({ name })}
      />
      <FieldChoice
        label="Seen"
        value={draft.view}
        options={views.map((key) => ({ key, words: viewWords[key] }))}
        onChange={(view) => onChange({ view })}
      />
      <FieldChoice
        label="Scored"
        value={draft.twoSided ? 'two' : 'one'}
        options={sides}
        onChange={(side) => onChange({ twoSided: side === 'two' })}
      />
    </div>
  );
}

/** How much of it lasts: at eight weeks, and later. */
function CriterionSteadiness({ draft, faults, onChange }: CriterionPartProps & { readonly faults: Faults }) {
  return (
    <div className={`stack gap-16 ${styles.trio}`}>
      <FieldChoice
        label="Steadiness at eight weeks"
        value={draft.level}
        options={levels}
        onChange={(level) => onChange({ level })}
      />
      <FieldText
        label="How far it can be leaned on"
        value={draft.note}
        maxLength={textLimit}
        fault={faults.get('steadiness.note')}
        onChange={(note) => onChange({ note })}
      />
      <FieldText
        label="What changes later"
        value={draft.later}
        maxLength={textLimit}
        fault={faults.get('later')}
        onChange={(later) => onChange({ later })}
      />
    </div>
  );
}

/** A key for an own criterion, made from its name and told apart from those taken. */
export function freshKey(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[-0-9]+|-+$/g, '')
    .slice(0, 34)
    .replace(/-+$/, '');
  const base = plain === '' ? 'own' : plain;
  let key = base;
  for (let count = 2; taken.includes(key); count += 1) key = `${base}-${count}`;
  return key;
}

type Evidence = Criterion['evidence'];
type CriterionEvidenceProps = {
  readonly chosen: Evidence;
  readonly fault: string | undefined;
  readonly onChange: (chosen: Evidence) => void;
};

const kinds = ['set-up', 'free-stance', 'movement', 'hands', 'photograph'] as const;

/** What shows a criterion. The one ticked first stands first, as the best. */
function CriterionEvidence({ chosen, fault, onChange }: CriterionEvidenceProps) {
  return (
    <fieldset className={styles.evidence}>
      <legend>Shows best (tick the best first)</legend>
      {kinds.map((kind) => (
        <FieldTick
          key={kind}
          label={evidenceWords[kind]}
          ticked={chosen.includes(kind)}
          onChange={(ticked) => onChange(ticked ? [...chosen, kind] : chosen.filter((one) => one !== kind))}
        />
      ))}
      {fault ? (
        <p role="alert" className="fault">
          {fault}
        </p>
      ) : null}
    </fieldset>
  );
}

type CriterionWordsProps = CriterionPartProps & {
  readonly faults: Faults;
  readonly limits: { readonly label: number; readonly text: number };
};

type Step = { readonly at: string; readonly key: string; readonly labelled: boolean };
const oneSided: readonly Step[] = [
  { at: 'Lowest step', key: 'low', labelled: true },
  { at: 'Middle step', key: 'middle', labelled: true },
  { at: 'Highest step', key: 'high', labelled: true },
];
const twoSided: readonly Step[] = [
  { at: 'Too little', key: 'tooLittle', labelled: true },
  { at: 'As asked', key: 'asked', labelled: false },
  { at: 'Too much', key: 'tooMuch', labelled: true },
];

/** The three anchors, each with the short word that stands on its key. */
function CriterionWords({ draft, faults, limits, onChange }: CriterionWordsProps) {
  const put = (list: CriterionDraft['anchors'], place: number, text: string): CriterionDraft['anchors'] => [
    place === 0 ? text : list[0],
    place === 1 ? text : list[1],
    place === 2 ? text : list[2],
  ];
  return (
    <div className={`stack gap-16 ${styles.trio}`}>
      {(draft.twoSided ? twoSided : oneSided).map(({ at, key, labelled }, place) => (
        <div key={at} className="stack upright gap-12">
          <FieldText
            label={`${at}: what is seen`}
            kind="lines"
            value={draft.anchors[place] ?? ''}
            maxLength={limits.text}
            fault={faults.get(`anchors.${key}`)}
            onChange={(text) => onChange({ anchors: put(draft.anchors, place, text) })}
          />
          {labelled ? (
            <FieldText
              label={`${at}: short word`}
              value={draft.labels[place] ?? ''}
              maxLength={limits.label}
              fault={faults.get(`labels.${key}`)}
              onChange={(text) => onChange({ labels: put(draft.labels, place, text) })}
            />
          ) : null}
        </div>
      ))}
    </div>
  );
}
