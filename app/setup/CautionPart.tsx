'use client';

import type { CautionKey } from '#lib/sheet/cautions';
import { CautionNote } from '../_parts/CautionNote';
import { FieldTick } from '../_parts/FieldTick';
import { Part } from './Part';
import styles from './Setup.module.css';

const beforeTheDay: readonly CautionKey[] = ['handling', 'hygiene', 'warmth-and-rest', 'fear', 'not-veterinary', 'hereditary', 'extremes', 'early-days', 'local-law', 'privacy'];

type CautionPartProps = { readonly read: boolean; readonly onRead: (read: boolean) => void };

export function CautionPart({ read, onRead }: CautionPartProps) {
  return (
    <Part title="Before the day" note="Read these, and tell whoever handles a puppy.">
      <div className={styles.cautions}>
        {beforeTheDay.map((caution) => (
          <CautionNote key={caution} caution={caution} />
        ))}
      </div>
      <FieldTick label="I have read these and told whoever handles a puppy." ticked={read} onChange={onRead} />
    </Part>
  );
}
