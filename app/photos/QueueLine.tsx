'use client';

import type { PhotoQueueView } from '../_data/photoQueue';
import { refusedOnWay } from '../_data/photoAnswer';
import { refusalText } from '../_data/refusalText';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { StatusPill } from '../_parts/StatusPill';
import styles from './Photos.module.css';

type Props = { readonly view: PhotoQueueView; readonly onPutAway: (id: string) => void; readonly onRetry: (id: string) => void };

/** LV2: where this device's pictures are, truthfully; and what was refused, with what to do about it. */
export function QueueLine({ view, onPutAway, onRetry }: Props) {
  const refused = view.rows.filter((row) => row.code !== null);
  const waiting = view.rows.length - refused.length;
  const done = waiting === 0 ? 1 : (view.sent + (view.sending?.share ?? 0)) / (view.sent + waiting);
  return (
    <div className={styles.queue}>
      <div role="status">
        <StatusPill tone={waiting === 0 ? (view.storeFailed ? 'note' : 'calm') : 'note'}>{queueWords(view, waiting)}</StatusPill>
      </div>
      {waiting > 0 && <progress className={styles.progress} value={done} max={1} aria-label="Pictures sent" />}
      {view.rows.map((row) =>
        view.onWay[row.id] === undefined ? null : (
          <p key={row.id} className={styles.refused}>
            <span>
              <b>{row.name}</b>: {refusalText({ data: { code: view.onWay[row.id] } })} It is tried again by itself.
            </span>
          </p>
        ),
      )}
      {refused.map((row) => (
        <p key={row.id} className={styles.refused} role="alert">
          <span>
            <b>{row.name}</b>: {refusalText({ data: { code: row.code } })}
          </span>
          {refusedOnWay.has(row.code ?? '') && (
            <Button onClick={() => onRetry(row.id)}>
              Try again<span className="aloud">: {row.name}</span>
            </Button>
          )}
          <Button onClick={() => onPutAway(row.id)}>
            Put away<span className="aloud">: {row.name}</span>
          </Button>
        </p>
      ))}
    </div>
  );
}

function queueWords({ sent, failures, storeFailed }: PhotoQueueView, waiting: number): string {
  const memory = storeFailed ? ' This browser keeps nothing: leave the page open until all are sent.' : '';
  if (waiting === 0) return `${sent === 0 ? 'No picture waits on this device' : `${counted(sent, 'picture')} sent, none waits`}.${memory}`;
  if (failures > 0) return `${counted(waiting, 'picture')} only on this device: no answer from the server, trying again.${memory}`;
  return `Sending: ${sent} on the server, ${waiting} to go.${memory}`;
}
