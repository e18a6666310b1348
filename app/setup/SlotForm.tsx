'use client';

import type { PurposeKey } from '#lib/contract/setup';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { MoveButtons } from '../_parts/MoveButtons';
import { purposeWords } from '../_parts/purposeWords';
import styles from './Setup.module.css';
import type { SetupView, SlotDraft } from './setupDraft';

type SlotFormProps = {
  readonly slot: SlotDraft;
  /** From 0. */
  readonly place: number;
  readonly last: boolean;
  readonly purposes: readonly PurposeKey[];
  /** Those that may pick. */
  readonly seats: SetupView['seats'];
  readonly fault: string | null;
  readonly onChange: (part: Partial<SlotDraft>) => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onRemove: () => void;
};

const sexes = [
  { key: 'any', words: 'dog or bitch' },
  { key: 'dog', words: 'a dog' },
  { key: 'bitch', words: 'a bitch' },
] as const;

/** One place in the pick order. */
export function SlotForm({ slot, place, last, purposes, seats, fault, onChange, onMove, onRemove }: SlotFormProps) {
  const takers = [{ key: '', words: 'nobody at the panel' }, ...seats.map(({ id, label }) => ({ key: id, words: label }))];
  return (
    <fieldset className={styles.slot}>
      <legend>Place {place + 1}</legend>
      <div className={styles.slotTools}>
        <MoveButtons name={`place ${place + 1}`} first={place === 0} last={last} onMove={onMove} />
        <Button tone="quiet" aria-label={`Remove place ${place + 1}`} onClick={onRemove}>
          Remove
        </Button>
      </div>
      <div className={styles.trio}>
        <FieldText label="Taken by" value={slot.taker} maxLength={60} fault={fault} onChange={(taker) => onChange({ taker })} />
        <FieldChoice label="Seat that picks" value={slot.seatId ?? ''} options={takers} onChange={(key) => onChange({ seatId: key === '' ? null : key })} />
        <FieldChoice label="For" value={slot.purpose} options={purposes.map((key) => ({ key, words: purposeWords[key] }))} onChange={(purpose) => onChange({ purpose })} />
        <FieldChoice label="Which" value={slot.sex} options={sexes} onChange={(sex) => onChange({ sex })} />
        <FieldText label="On condition that" value={slot.condition} maxLength={120} onChange={(condition) => onChange({ condition })} />
        <FieldText label="Chosen by when" value={slot.byWhen} maxLength={60} onChange={(byWhen) => onChange({ byWhen })} />
      </div>
      <FieldText label="If the puppy fails a check" value={slot.ifFails} maxLength={120} onChange={(ifFails) => onChange({ ifFails })} />
    </fieldset>
  );
}
