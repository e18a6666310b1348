'use client';

import { useState } from 'react';
import { Button } from '../_parts/Button';
import { Drawer } from '../_parts/Drawer';
import { ChooseSeat } from './ChooseSeat';
import styles from './Demo.module.css';

/** Behind one more press, because the copy at hand goes with it. */
export function StartOver() {
  const [open, setOpen] = useState(false);
  return (
    <div className={styles.actions}>
      <Button onClick={() => setOpen(true)}>Start over with another seat</Button>
      {open ? (
        <Drawer title="Start over" onClose={() => setOpen(false)}>
          <p>Any of these takes a fresh copy. The one you have is removed at once, with all you did in it.</p>
          <ChooseSeat />
        </Drawer>
      ) : null}
    </div>
  );
}
