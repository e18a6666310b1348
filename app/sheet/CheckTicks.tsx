'use client';

import { type CheckKey, checkKeys } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkByKey';
import { FieldTick } from '../_parts/FieldTick';
import styles from './Sheet.module.css';

type CheckTicksProps = { readonly chosen: readonly CheckKey[]; readonly onChange: (chosen: CheckKey[]) => void };

/** Which checks go with the sheet, in their fixed order. */
export function CheckTicks({ chosen, onChange }: CheckTicksProps) {
  return (
    <section className={styles.view}>
      <h2>Checks</h2>
      <p className={styles.lead}>A check that is left out holds nothing back: whoever leaves one out looks some other way.</p>
      <div className={styles.ticks}>
        {checkKeys.map((key) => (
          <FieldTick
            key={key}
            label={checkByKey(key)?.name ?? key}
            ticked={chosen.includes(key)}
            onChange={(ticked) => onChange(checkKeys.filter((one) => (one === key ? ticked : chosen.includes(one))))}
          />
        ))}
      </div>
    </section>
  );
}
