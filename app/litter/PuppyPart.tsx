'use client';

import { useState } from 'react';
import type { LitterView, PuppyView } from '#lib/contract/litter';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { CollarChip } from '../_parts/CollarChip';
import { Disclosure } from '../_parts/Disclosure';
import { EmptyState } from '../_parts/EmptyState';
import { collarClash } from './collarClash';
import styles from './litter.module.css';
import { PuppyForm } from './PuppyForm';

/** The puppies, each told from the others by collar, second mark and chip. */
export function PuppyPart({ litter }: { readonly litter: LitterView }) {
  const [open, setOpen] = useState<string | null>(null);
  const clashes = collarClash(litter.puppies);
  const close = () => setOpen(null);
  return (
    <section className="stack gap-12">
      <h2>Puppies</h2>
      {clashes.map((words) => (
        <p key={words} className="warning">
          {words}
        </p>
      ))}
      {litter.puppies.length === 0 && open === null ? (
        <EmptyState title="No puppies yet">
          <p>Name, sex and collar for each; a second mark in case a collar comes off in play.</p>
        </EmptyState>
      ) : (
        <PuppyTable puppies={litter.puppies} onChange={setOpen} />
      )}
      {open === null ? (
        <div className={`wrap gap-12 ${styles.actions}`}>
          <Button tone={litter.puppies.length === 0 ? 'main' : 'plain'} onClick={() => setOpen('new')}>
            Add a puppy
          </Button>
        </div>
      ) : (
        <PuppyForm
          key={`${open} ${litter.puppies.length}`}
          litter={litter}
          puppy={litter.puppies.find((one) => one.id === open) ?? null}
          onClose={close}
        />
      )}
      <Disclosure bare className={`reads ${styles.more}`} words="Collar swaps, chips and people’s details">
        <p>
          Collars slip off and are swapped in play. Check sex, collar and second mark aloud when a puppy comes to the
          table; the chip’s last four digits settle a doubt.
        </p>
        <CautionNote caution="privacy" />
      </Disclosure>
    </section>
  );
}

type PuppyTableProps = { readonly puppies: readonly PuppyView[]; readonly onChange: (id: string) => void };

/** Roles are named because the narrow layout takes the table's display away, and with it its meaning to readers. */
function PuppyTable({ puppies, onChange }: PuppyTableProps) {
  if (puppies.length === 0) return null;
  return (
    <table role="table" className={`${styles.cells} ${styles.table}`}>
      <thead role="rowgroup">
        <tr role="row">
          <th role="columnheader" scope="col">
            Name
          </th>
          <th role="columnheader" scope="col">
            Sex
          </th>
          <th role="columnheader" scope="col">
            Collar
          </th>
          <th role="columnheader" scope="col">
            Second mark
          </th>
          <th role="columnheader" scope="col">
            Chip ends in
          </th>
          <th role="columnheader" scope="col">
            <span className="aloud">Change</span>
          </th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        {puppies.map((puppy) => (
          <tr role="row" key={puppy.id}>
            <th role="rowheader" scope="row">
              {puppy.name}
            </th>
            <td role="cell" data-head="Sex">
              {puppy.sex}
            </td>
            <td role="cell" data-head="Collar">
              <CollarChip collar={puppy.collar} />
            </td>
            <td role="cell" data-head="Second mark">
              {puppy.secondMark === '' ? <span className="small">none given</span> : puppy.secondMark}
            </td>
            <td role="cell" data-head="Chip ends in" className="figures">
              {puppy.chipDigits === '' ? <span className="small">not given</span> : puppy.chipDigits}
            </td>
            <td role="cell">
              <Button tone="quiet" aria-label={`Change ${puppy.name}`} onClick={() => onChange(puppy.id)}>
                Change
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
