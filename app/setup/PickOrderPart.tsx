'use client';

import { Button } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { moved } from '../_parts/moved';
import { Part } from './Part';
import { PartiesList } from './PartiesList';
import styles from './Setup.module.css';
import { setupDraft, type SetupDraft, type SetupView, type SlotDraft } from './setupDraft';
import { SlotForm } from './SlotForm';
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
      <ol className={styles.slots}>
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
      <div className={styles.actions}>
        <Button
          disabled={!purpose || slots.length >= 12}
          onClick={() => purpose && set([...slots, { taker: '', seatId: null, purpose: purpose.key, sex: 'any', condition: '', byWhen: '', ifFails: '' }])}
        >
          Add a place
        </Button>
      </div>
      <PartiesList setup={setup} changed={JSON.stringify(slots) !== JSON.stringify(setupDraft(setup).slots)} />
    </Part>
  );
}
