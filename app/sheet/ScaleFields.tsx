'use client';

import type { Sheet } from '#lib/sheet/sheet';
import { FieldChoice } from '../_parts/FieldChoice';

type ScaleFieldsProps = { readonly scale: Sheet['scale']; readonly fault: string | undefined; readonly onChange: (scale: Sheet['scale']) => void };

const lows = [
  { key: '1', words: 'from 1' },
  { key: '0', words: 'from 0' },
] as const;
const stepOptions = Array.from({ length: 9 }, (_, index) => ({ key: String(index + 3), words: `${index + 3} steps` }));

/** 3 to 11 steps from 0 or 1. */
export function ScaleFields({ scale: { low, high }, fault, onChange }: ScaleFieldsProps) {
  const steps = high - low + 1;
  return (
    <>
      <FieldChoice label="Scale" value={low === 0 ? '0' : '1'} options={lows} onChange={(key) => onChange({ low: Number(key), high: Number(key) + steps - 1 })} />
      <FieldChoice
        label="Steps"
        hint="About seven tell most; above ten people no longer repeat themselves. Two-sided criteria keep their own seven."
        value={String(steps)}
        options={stepOptions}
        fault={fault}
        onChange={(key) => onChange({ low, high: low + Number(key) - 1 })}
      />
    </>
  );
}
