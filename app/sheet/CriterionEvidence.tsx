'use client';

import type { Criterion } from '#lib/sheet/criterion';
import { FieldTick } from '../_parts/FieldTick';
import { evidenceWords } from './criterionWords';
import styles from './Sheet.module.css';

type Evidence = Criterion['evidence'];
type CriterionEvidenceProps = { readonly chosen: Evidence; readonly fault: string | undefined; readonly onChange: (chosen: Evidence) => void };

const kinds = ['set-up', 'free-stance', 'movement', 'hands', 'photograph'] as const;

/** What shows a criterion. The one ticked first stands first, as the best. */
export function CriterionEvidence({ chosen, fault, onChange }: CriterionEvidenceProps) {
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
        <p role="alert" className={styles.fault}>
          {fault}
        </p>
      ) : null}
    </fieldset>
  );
}
