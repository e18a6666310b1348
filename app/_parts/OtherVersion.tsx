'use client';

import { useState } from 'react';
import { useOtherVersion } from '../_data/otherVersion';
import { Button } from './Button';
import styles from './OtherVersion.module.css';
import { useSettled } from './useSettled';

/** As long as the table's move (LV3): a finger on its way down was not meant for this. */
const unripeMs = 700;

/**
 * Says on every page that the server has been renewed since the page was loaded, and offers to load it anew. It never does so by
 * itself: something may stand half typed in a field. It lies over the end of the page, so that nothing moves under a finger.
 */
export function OtherVersion() {
  const other = useOtherVersion();
  const [later, setLater] = useState(false);
  const shown = other && !later;
  const settled = useSettled(shown ? 'shown' : '', unripeMs, '');
  if (!shown) return null;
  return (
    <div role="status" aria-label="Another version" className={styles.bar}>
      <p>
        <strong>The server runs another version than this page and takes no change from it.</strong> Scores and pictures
        wait on this device. Load the page anew; what is typed in a field and not saved is lost by that.
      </p>
      <div className={styles.ways}>
        <Button tone="main" disabled={!settled} onClick={() => window.location.reload()}>
          Load the page anew
        </Button>
        <Button disabled={!settled} onClick={() => setLater(true)}>
          Later
        </Button>
      </div>
    </div>
  );
}
