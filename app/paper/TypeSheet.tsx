'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { EntryBody } from '#lib/contract/entry';
import type { PaperSeat, PaperSheet } from '#lib/contract/paper';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { Refusal } from '../_parts/Refusal';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { type RoundView, useScoring } from '../score/useScoring';
import { nothingTyped, rowsOfSheet, saidWords, type SheetRow, typeKey } from './sheetRows';
import styles from './paper.module.css';

type Props = { readonly seat: PaperSeat; readonly sheet: PaperSheet; readonly onDone: () => void };

/** A filled sheet, typed key by key: a seat's own as ordinary answers of this device, a paper seat's as one whole card by the owner. */
export function TypeSheet(props: Props) {
  const { round } = useEvaluation();
  if (!round) return null;
  return props.seat.onPaper ? <ForPaperSeat {...props} /> : <Own {...props} round={round} />;
}

/** Kept nowhere on this device: until it is sent it lives in this page, and once it is acknowledged the paper is the only copy here. */
function ForPaperSeat({ seat, sheet, onDone }: Props) {
  const { id } = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  // No time in the cache of changes: what was typed is forgotten with the page's own state.
  const send = useMutation({
    ...trpc.paper.type.mutationOptions({
      onSuccess: async () => {
        await queries.invalidateQueries(trpc.paper.list.queryFilter({ id }));
        onDone();
      },
    }),
    gcTime: 0,
  });
  return (
    <KeyedSheet
      seat={seat}
      sheet={sheet}
      busy={send.isPending}
      error={send.error}
      onSend={(bodies) => send.mutate({ id, seatId: seat.id, showingId: sheet.showingId, bodies: [...bodies] })}
      onLeave={onDone}
    />
  );
}

function Own({ seat, sheet, onDone, round }: Props & { readonly round: RoundView }) {
  const { seats } = useEvaluation();
  const face = seats.find((one) => one.id === seat.id);
  return face ? <OwnSheet seat={seat} sheet={sheet} onDone={onDone} round={round} face={face} /> : null;
}

type OwnProps = Props & { readonly round: RoundView; readonly face: Parameters<typeof useScoring>[0]['seat'] };

function OwnSheet({ seat, sheet, onDone, round, face }: OwnProps) {
  const scoring = useScoring({ round, seat: face });
  if (!scoring.ready) return scoring.failure ? <Refusal error={scoring.failure} /> : <Loading what="your card" />;
  const send = (bodies: readonly EntryBody[]) => {
    for (const body of bodies) scoring.say(sheet.showingId, body);
    onDone();
  };
  return <KeyedSheet seat={seat} sheet={sheet} busy={false} error={null} onSend={send} onLeave={onDone} />;
}

type KeyedProps = {
  readonly seat: PaperSeat;
  readonly sheet: PaperSheet;
  readonly busy: boolean;
  readonly error: unknown;
  readonly onSend: (bodies: readonly EntryBody[]) => void;
  readonly onLeave: () => void;
};

/** The rows in the order of the sheet; one key answers the row that is next and goes on. */
function KeyedSheet({ seat, sheet, busy, error, onSend, onLeave }: KeyedProps) {
  const rows = rowsOfSheet(useEvaluation(), seat.kind, sheet.puppy);
  const [typing, setTyping] = useState(nothingTyped);
  const [word, setWord] = useState('');
  const count = rows.filter((row) => row.asked && typing.said[row.field] !== undefined).length;
  const any = Object.keys(typing.said).length > 0;
  useUnsavedGuard(any || word !== '');
  const press = (key: string) => setTyping((before) => typeKey(rows, before, key) ?? before);
  const note = word.trim();
  return (
    <section className="stack gap-16" aria-label={`Sheet ${sheet.code} of ${seat.label}`}>
      <PuppyIdentity puppy={sheet.puppy} level="h2" aside={<strong className={styles.code}>{sheet.code}</strong>} />
      <p className="small text">
        The sign in the box for the answer, “-” or a blank for not seen, Enter where the paper is blank, Backspace to go
        back.
      </p>
      <label className="stack gap-4">
        <span>
          {count} of {sheet.asked} typed
        </span>
        <progress className="full" value={count} max={sheet.asked} />
      </label>
      <ol className="list lined" aria-label="Questions">
        {rows.map((row, at) => (
          <RowLine key={row.field} row={row} here={at === typing.at} said={saidWords(row, typing)} onKey={press} />
        ))}
      </ol>
      <label className="stack gap-4">
        <span className="strong">A word on the sheet</span>
        <textarea
          className="key"
          rows={2}
          maxLength={1000}
          value={word}
          onChange={(event) => setWord(event.target.value)}
        />
      </label>
      <Refusal error={error} />
      <div className="tools">
        <Button
          tone="main"
          busy={busy}
          disabled={!any}
          onClick={() =>
            onSend([
              ...Object.values(typing.said),
              ...(note === '' ? [] : [{ kind: 'note', criterion: null, text: note } as const]),
            ])
          }
        >
          Send this card
        </Button>
        <Button disabled={busy} onClick={onLeave}>
          Leave it untyped
        </Button>
      </div>
    </section>
  );
}

type RowProps = {
  readonly row: SheetRow;
  readonly here: boolean;
  readonly said: string | null;
  readonly onKey: (key: string) => void;
};

function RowLine({ row, here, said, onKey }: RowProps) {
  return (
    <li className={`stack gap-4 ${styles.row}`} aria-current={here ? 'step' : undefined}>
      <span className="wrap between gap-8">
        <span className="strong">{row.title}</span>
        <span>{said ?? (here ? '' : '·')}</span>
      </span>
      {here ? <RowKeys row={row} onKey={onKey} /> : null}
    </li>
  );
}

/** A field for one sign, so that a telephone's keyboard comes up too; it never holds what was typed. */
function RowKeys({ row, onKey }: Pick<RowProps, 'row' | 'onKey'>) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), [row.field]);
  const down = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== 'Backspace') return;
    event.preventDefault();
    onKey(event.key);
  };
  const words = row.boxes.map((box) => (box.words === '' ? box.key : `${box.key} ${box.words}`)).join(' · ');
  return (
    <>
      <span className="small">{words}</span>
      <input
        ref={field}
        className={`key ${styles.sign}`}
        aria-label={`${row.title}: the sign in the box`}
        value=""
        autoComplete="off"
        onKeyDown={down}
        onChange={(event) => onKey(event.target.value.slice(-1))}
      />
    </>
  );
}
