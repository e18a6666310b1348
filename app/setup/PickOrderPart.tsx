'use client';

import type { PurposeKey } from '#lib/contract/setup';
import { Button } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { MoveButtons, moved } from '../_parts/MoveButtons';
import { purposeWords } from '../_parts/textWords';
import { sexWords } from '../_parts/slotWords';
import { Part } from './Part';
import styles from './setup.module.css';
import { setupDraft, type SetupDraft, type SetupView, type SlotDraft } from './setupDraft';
import type { Change } from './useSetupDraft';

type PickOrderPartProps = {
  readonly draft: SetupDraft;
  readonly setup: SetupView;
  readonly faults: readonly (string | null)[];
  readonly change: Change;
};

/** Who takes a puppy, in which order and for what: agreed before anyone scores. */
export function PickOrderPart({ draft, setup, faults, change }: PickOrderPartProps) {
  const { slots, purposes } = draft;
  const set = (next: readonly SlotDraft[]) => change({ slots: [...next] });
  const [purpose] = purposes;
  return (
    <Part
      title="Pick order"
      note="Agree on it before anyone scores: who takes when, dog or bitch, before or after the breeder’s keep, by which date, and what happens if the puppy fails a check."
    >
      {slots.length === 0 ? (
        <EmptyState title="No place in the pick order">
          <p>Then the scores are read without choosing. Add a place for each puppy that somebody takes.</p>
        </EmptyState>
      ) : null}
      <ol className="list stack gap-16">
        {slots.map((slot, place) => (
          <li key={place}>
            <SlotForm
              slot={slot}
              place={place}
              last={place === slots.length - 1}
              purposes={purposes.map(({ key }) => key)}
              seats={setup.seats.filter((seat) => seat.picks)}
              fault={faults[place] ?? null}
              onChange={(part) => set(slots.map((one, index) => (index === place ? { ...one, ...part } : one)))}
              onMove={(by) => set(moved(slots, place, by))}
              onRemove={() => set(slots.filter((_, index) => index !== place))}
            />
          </li>
        ))}
      </ol>
      <div className="tools">
        <Button
          disabled={!purpose || slots.length >= 12}
          onClick={() =>
            purpose &&
            set([
              ...slots,
              { taker: '', seatId: null, purpose: purpose.key, sex: 'any', condition: '', byWhen: '', ifFails: '' },
            ])
          }
        >
          Add a place
        </Button>
      </div>
      <PartiesList setup={setup} changed={JSON.stringify(slots) !== JSON.stringify(setupDraft(setup).slots)} />
    </Part>
  );
}

type PartiesListProps = {
  readonly setup: SetupView /** The order as typed differs from the one on the server. */;
  readonly changed: boolean;
};

/** Who has to agree to the pick order, and whether each has, as it is worded on the server now. */
function PartiesList({ setup, changed }: PartiesListProps) {
  const parties = setup.parties.flatMap(({ seat, confirmed }) => {
    const found = setup.seats.find((one) => one.id === seat);
    return found ? [{ ...found, confirmed }] : [];
  });
  if (parties.length === 0)
    return <p className="small">No other seat may pick, so nobody else has to agree to this order.</p>;
  return (
    <div>
      <h3>Who has agreed</h3>
      <p className="small">Each reads the order on the first page of its own seat and confirms it there.</p>
      <ul className={`list lined ${styles.parties}`} aria-label="Who has agreed to the pick order">
        {parties.map(({ id, label, state, confirmed }) => (
          <li key={id}>
            <b>{label}</b>:{' '}
            {confirmed
              ? 'has agreed to the order as saved'
              : state === 'invited'
                ? 'has not joined yet, so has not agreed'
                : 'has not agreed to the order as saved'}
          </li>
        ))}
      </ul>
      {changed && parties.some(({ confirmed }) => confirmed) ? (
        <p className="warning">
          The order above differs from the one they agreed to: saving it asks every one of them again.
        </p>
      ) : null}
    </div>
  );
}

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

const sexes = (['any', 'dog', 'bitch'] as const).map((key) => ({ key, words: sexWords[key] }));

/** One place in the pick order. */
function SlotForm({ slot, place, last, purposes, seats, fault, onChange, onMove, onRemove }: SlotFormProps) {
  const takers = [
    { key: '', words: 'nobody at the panel' },
    ...seats.map(({ id, label }) => ({ key: id, words: label })),
  ];
  return (
    <fieldset className={`sheet stack gap-12 ${styles.slot}`}>
      <legend>Place {place + 1}</legend>
      <div className={styles.slotTools}>
        <MoveButtons name={`place ${place + 1}`} first={place === 0} last={last} onMove={onMove} />
        <Button tone="quiet" aria-label={`Remove place ${place + 1}`} onClick={onRemove}>
          Remove
        </Button>
      </div>
      <div className={`stack gap-16 ${styles.trio}`}>
        <FieldText
          label="Taken by"
          value={slot.taker}
          maxLength={60}
          fault={fault}
          onChange={(taker) => onChange({ taker })}
        />
        <FieldChoice
          label="Seat that picks"
          value={slot.seatId ?? ''}
          options={takers}
          onChange={(key) => onChange({ seatId: key === '' ? null : key })}
        />
        <FieldChoice
          label="For"
          value={slot.purpose}
          options={purposes.map((key) => ({ key, words: purposeWords[key] }))}
          onChange={(purpose) => onChange({ purpose })}
        />
        <FieldChoice label="Which" value={slot.sex} options={sexes} onChange={(sex) => onChange({ sex })} />
        <FieldText
          label="On condition that"
          value={slot.condition}
          maxLength={120}
          onChange={(condition) => onChange({ condition })}
        />
        <FieldText
          label="Chosen by when"
          value={slot.byWhen}
          maxLength={60}
          onChange={(byWhen) => onChange({ byWhen })}
        />
      </div>
      <FieldText
        label="If the puppy fails a check"
        value={slot.ifFails}
        maxLength={120}
        onChange={(ifFails) => onChange({ ifFails })}
      />
    </fieldset>
  );
}
