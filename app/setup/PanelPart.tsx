'use client';

import { useState } from 'react';
import { Button } from '../_parts/Button';
import { LinkAddress } from './LinkAddress';
import { Part } from './Part';
import { SeatForm } from './SeatForm';
import { SeatLine } from './SeatLine';
import styles from './setup.module.css';
import type { SetupView } from './setupDraft';

type PanelPartProps = {
  readonly setup: SetupView;
  readonly owner: boolean;
  /** Once the round is open seats may be added, but what a standing one sees and touches stays as agreed. */
  readonly late: boolean;
  readonly mayAdd?: boolean;
};

/** The panel: who sits at it, what each can see and touch, and the link of each. Seats are saved one by one, at once. */
export function PanelPart({ setup, owner, late, mayAdd = true }: PanelPartProps) {
  const [adding, setAdding] = useState(false);
  const [address, setAddress] = useState<string | null>(null);
  const linksToMake = setup.seats.some((seat) => !seat.owner && (seat.state === 'invited' || seat.linkWaiting));
  const full = setup.seats.length >= 12;
  return (
    <Part
      title="Panel"
      note="Everyone invited has a seat that says what it can see and touch. Name seats by role. Each seat is saved at once; its link is for one device and dies at first use."
    >
      {linksToMake ? <LinkAddress address={address} onChange={setAddress} /> : null}
      <ul className={`list stack gap-12 ${styles.seats}`}>
        {setup.seats.map((seat) => (
          <SeatLine
            owner={owner}
            key={seat.id}
            evaluationId={setup.id}
            seat={seat}
            phase={setup.phase}
            fixed={late}
            address={address}
          />
        ))}
      </ul>
      {adding ? <SeatForm rights={owner} evaluationId={setup.id} seat={null} onClose={() => setAdding(false)} /> : null}
      {mayAdd && !adding ? (
        <div className="tools">
          <Button disabled={full} onClick={() => setAdding(true)}>
            {late ? 'Add a late seat' : 'Add a seat'}
          </Button>
          {full ? <p className="small">Twelve seats are the most a panel can have.</p> : null}
        </div>
      ) : null}
    </Part>
  );
}
