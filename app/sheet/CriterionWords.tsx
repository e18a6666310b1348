'use client';

import { FieldText } from '../_parts/FieldText';
import type { CriterionDraft } from './criterionDraft';
import type { Faults } from './sheetFaults';
import styles from './Sheet.module.css';

type CriterionWordsProps = {
  readonly draft: CriterionDraft;
  readonly faults: Faults;
  readonly limits: { readonly label: number; readonly text: number };
  readonly onChange: (part: Partial<CriterionDraft>) => void;
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
export function CriterionWords({ draft, faults, limits, onChange }: CriterionWordsProps) {
  const put = (list: CriterionDraft['anchors'], place: number, text: string): CriterionDraft['anchors'] => [
    place === 0 ? text : list[0],
    place === 1 ? text : list[1],
    place === 2 ? text : list[2],
  ];
  return (
    <div className={styles.trio}>
      {(draft.twoSided ? twoSided : oneSided).map(({ at, key, labelled }, place) => (
        <div key={at} className={styles.step}>
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
