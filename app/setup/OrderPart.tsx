'use client';

import { useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { EmptyState } from '../_parts/EmptyState';
import { MoveButtons, moved } from '../_parts/MoveButtons';
import { Part } from './Part';
import styles from './setup.module.css';
import type { SetupDraft } from './setupDraft';
import type { Change } from './useSetupDraft';

type OrderPartProps = { readonly draft: SetupDraft; readonly puppies: readonly PuppyFace[]; readonly change: Change };

/** The order in which puppies come to the table, by hand or drawn once. */
export function OrderPart({ draft: { order, input }, puppies, change }: OrderPartProps) {
  const [drawn, setDrawn] = useState<readonly string[] | null>(null);
  const named = order.flatMap((id) => puppies.find((puppy) => puppy.id === id && !puppy.withdrawn) ?? []);
  const move = (id: string, by: -1 | 1) => {
    const visible = named.map((puppy) => puppy.id);
    change({ order: [...moved(visible, visible.indexOf(id), by)] });
  };
  const draw = () => {
    const next = drawOrder(named.map((puppy) => puppy.id));
    setDrawn(next);
    change({ order: [...next] });
  };
  const drawnNames = drawn?.flatMap((id) => puppies.find((puppy) => puppy.id === id)?.name ?? []).join(', ');
  if (named.length === 0) {
    return (
      <Part title="Order of showing">
        <EmptyState title="The litter has no puppies yet">
          <p>Put them in on the litter’s page; they then stand here.</p>
        </EmptyState>
      </Part>
    );
  }
  return (
    <Part
      title="Order of showing"
      note={
        input.medium === 'table'
          ? 'Later puppies tend to be scored higher, so leave the order to chance. Everyone follows the table.'
          : 'Scored from photographs, each seat gets a balanced order of its own, made from this one.'
      }
    >
      <ol className={`list topped lined ${styles.order}`}>
        {named.map((puppy, place) => (
          <li key={puppy.id} className="row gap-12">
            <span className={styles.place}>{place + 1}</span>
            <span className={`wrap grows ${styles.who}`}>
              <b>{puppy.name}</b> <CollarChip collar={puppy.collar} />
            </span>
            <MoveButtons
              name={puppy.name}
              first={place === 0}
              last={place === named.length - 1}
              onMove={(by) => move(puppy.id, by)}
            />
          </li>
        ))}
      </ol>
      <div className="tools">
        <Button disabled={drawn !== null} onClick={draw}>
          Draw the order by chance
        </Button>
      </div>
      <p role="status">{drawnNames === undefined ? '' : `Drawn once: ${drawnNames}. Save the set-up to keep it.`}</p>
    </Part>
  );
}

/** The ids in an order drawn by chance, every order equally likely (Fisher and Yates, from memory). */
export function drawOrder(ids: readonly string[]): string[] {
  const order = [...ids];
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = below(last + 1);
    const [a, b] = [order[last], order[other]];
    if (a === undefined || b === undefined) continue;
    order[last] = b;
    order[other] = a;
  }
  return order;
}

/** A whole number from 0 to just under `bound`; draws that would favour the small ones are thrown away. */
function below(bound: number): number {
  const most = Math.floor(0x1_0000_0000 / bound) * bound;
  for (;;) {
    const [draw] = crypto.getRandomValues(new Uint32Array(1));
    if (draw !== undefined && draw < most) return draw % bound;
  }
}
