'use client';

import { entryField } from '#lib/evaluation/entries';
import type { OutboxRow } from '#lib/evaluation/outboxState';
import type { OutboxView } from '../_data/outbox';
import { refusalText } from '../_data/refusalText';
import { Button } from '../_parts/Button';
import { clockWords } from '../_parts/timeWords';
import { useWide } from '../_parts/useWide';
import styles from './score.module.css';
import { isInPageOnly, silentSince, standingLine } from './linkWords';
import { stepField, stepsFor, stepTitle } from './steps';
import type { Scoring } from './useScoring';
import { faceOf } from './useShowing';

/** Everything on this device that the server does not have in force, in words; nothing goes from here unseen. */
export function EntryList({ scoring }: { readonly scoring: Scoring }) {
  const { view, outbox } = scoring;
  const line = standingLine(scoring, useWide() ? 'computer' : 'phone');
  const rows = view.state.rows.filter((row) => row.status !== 'applied');
  return (
    <div className="stack starts gap-14">
      <p>
        <strong>{line.words}</strong>
        {line.link === null ? '.' : `; ${line.link}.`}
      </p>
      {!scoring.link.connected ? (
        <p>
          Until there is a link, this screen shows the table and the panel as they were read at{' '}
          {clockWords(scoring.readAt)}.
        </p>
      ) : null}
      {view.storeFailed ? (
        <p role="note" className={`fault ${styles.stop}`}>
          This browser does not let the page write to the device just now. What you tap stays in this page and is sent
          from here: keep the page open until all is on the server.
        </p>
      ) : null}
      {view.state.refusal !== null ? (
        <p role="note" className={`fault ${styles.stop}`}>
          The server does not take them: {refusalText({ data: { code: view.state.refusal } })} They stay on this device
          and are tried again.
        </p>
      ) : null}
      {rows.length === 0 ? <p>Nothing waits on this device.</p> : null}
      <ul className="list stack gap-8 full">
        {rows.map((row) => (
          <li key={row.entry.id} className={`sheet wrap centred between gap-8 ${styles.entry}`}>
            <p>
              {rowTitle(scoring, row)}: {rowWords(row, view)}
            </p>
            {row.status !== 'waiting' ? (
              <Button data-steady onClick={() => outbox.putAway(row.entry.id)}>
                I have read this
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      {rows.some((row) => row.status === 'waiting') ? <Button onClick={outbox.wake}>Send now</Button> : null}
    </div>
  );
}

function rowTitle(scoring: Scoring, { entry }: OutboxRow): string {
  const { evaluation, seat } = scoring;
  if (entry.body.kind === 'choice')
    return `Choice for ${evaluation.slots.find((slot) => slot.id === entry.subject)?.taker ?? 'a place'}`;
  const face = faceOf(scoring, entry.subject);
  const step =
    face &&
    stepsFor(evaluation.sheet, seat.kind, face.puppy.sex).find((one) => stepField(one) === entryField(entry.body));
  const what = step ? stepTitle(step) : entry.body.kind === 'fair' ? 'a fair day' : entry.body.kind;
  return face ? `${face.puppy.name}, ${what}` : what;
}

function againWords({ state }: OutboxView): string {
  const lacks = 'was on the server, which no longer has it, as after a restored backup;';
  return state.takesAgain
    ? `${lacks} sent again from this device`
    : `${lacks} kept on this device, and sent once the round is open again, or as late once it is revealed`;
}

function rowWords(row: OutboxRow, view: OutboxView): string {
  switch (row.status) {
    case 'waiting':
      if (isInPageOnly(row, view.at)) return 'waits in this page only';
      if (row.again === true) return againWords(view);
      return view.state.sending.includes(row.entry.id) && silentSince(view) !== null
        ? 'sent, not confirmed; kept on this device'
        : 'waits on this device';
    case 'late':
      return 'came after the lock or the close. It is kept and marked late; it does not count in the blind result.';
    case 'superseded':
      return 'a newer answer of yours, from another device, stands.';
    case 'refused':
      return `refused. ${refusalText({ data: { code: row.code } })}`;
    case 'applied':
      return 'on the server';
  }
}
