'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PaperSeat, PaperSheet } from '#lib/contract/paper';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button, ButtonLink } from '../_parts/Button';
import { Loading } from '../_parts/Loading';
import { Page } from '../_parts/Page';
import { PageHead } from '../_parts/PageHead';
import { Refusal } from '../_parts/Refusal';
import { capital, collarWords, counted } from '../_parts/textWords';
import { recentWords } from '../_parts/timeWords';
import { NoLink } from '../score/WaitScreen';
import { PaperLock } from './PaperLock';
import { PrintedSheets } from './PrintedSheets';
import { TypeSheet } from './TypeSheet';
import styles from './paper.module.css';

/** `/paper?id=…`: sheets to print, and filled sheets to type in. */
export function PaperScreen() {
  return (
    <EvaluationFrame layout="bare">
      <Paper />
    </EvaluationFrame>
  );
}

function Paper() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data, error } = useQuery(trpc.paper.list.queryOptions({ id: evaluation.id }));
  const [chosen, choose] = useState<string | null>(null);
  const [typing, setTyping] = useState<PaperSheet | null>(null);
  const seats = data?.seats ?? [];
  const seat = seats.find((one) => one.id === chosen) ?? seats.find((one) => one.onPaper) ?? seats[0];
  return (
    <>
      <div className="unprinted">
        <PageHead title="Paper sheets" facts={`${evaluation.litterName} · ${evaluation.name}`} />
        <Page>
          <NoLink />
          {data ? null : error === null ? <Loading what="the sheets" /> : <Refusal error={error} />}
          {data && !seat ? (
            <p>
              No sheet is yours to print here: your seat does not score, and no seat is marked as answering on paper.
            </p>
          ) : null}
          {seats.length > 1 && seat && !typing ? (
            <div role="group" aria-label="Whose sheets" className="tools">
              {seats.map((one) => (
                <Button
                  key={one.id}
                  aria-pressed={one.id === seat.id}
                  tone={one.id === seat.id ? 'main' : 'plain'}
                  onClick={() => choose(one.id)}
                >
                  {capital(one.label)}
                </Button>
              ))}
            </div>
          ) : null}
          {seat && typing ? (
            <TypeSheet key={typing.showingId} seat={seat} sheet={typing} onDone={() => setTyping(null)} />
          ) : null}
          {seat && !typing ? <SeatSheets key={seat.id} seat={seat} onType={setTyping} /> : null}
          <p>
            <ButtonLink href={`/score?id=${evaluation.id}`}>Back to scoring</ButtonLink>
          </p>
        </Page>
      </div>
      {seat ? <PrintedSheets seat={seat} /> : null}
    </>
  );
}

function SeatSheets({ seat, onType }: { readonly seat: PaperSeat; readonly onType: (sheet: PaperSheet) => void }) {
  const { round, viewer } = useEvaluation();
  const open = round?.state === 'open' && !seat.locked;
  if (seat.sheets.length === 0) {
    return (
      <p>
        {round?.state === 'revealed'
          ? 'The round is revealed: there is nothing left to fill in.'
          : 'Sheets are drawn up when the round opens. Open it the evening before, if you like, and print them then.'}
      </p>
    );
  }
  return (
    <section className="stack gap-20" aria-label={capital(seat.label)}>
      <div className="stack starts gap-8">
        <Button tone="main" onClick={() => window.print()}>
          Print {counted(seat.sheets.length, 'blank sheet')} of {seat.label}
        </Button>
        <p className="small text">
          On A4 or Letter, a puppy a sheet, in the order in which this seat sees them.{' '}
          {seat.onPaper ? 'Whoever fills them in should know that the owner types them in and sees them then.' : ''}
        </p>
      </div>
      <Standing seat={seat} />
      {open && (viewer.seatId === seat.id || seat.onPaper) ? <ChooseSheet seat={seat} onChoose={onType} /> : null}
      {open && seat.onPaper ? <PaperLock seat={seat} /> : null}
    </section>
  );
}

function Standing({ seat }: { readonly seat: PaperSeat }) {
  return (
    <ul className="list lined" aria-label="Sheets">
      {seat.sheets.map((sheet) => (
        <li key={sheet.showingId} className={`wrap gap-12 centred ${styles.line}`}>
          <strong className={styles.code}>{sheet.code}</strong>
          <span className="grows">
            {sheet.puppy.name}, {collarWords(sheet.puppy.collar)}
          </span>
          {seat.onPaper ? <span className="small">{standingWords(sheet)}</span> : null}
        </li>
      ))}
    </ul>
  );
}

/** That it was typed, when, by whom and how much: never what. */
function standingWords({ typed, asked }: PaperSheet): string {
  return typed
    ? `typed ${recentWords(typed.at)}, by the owner, ${typed.answers} of ${counted(asked, 'answer')}`
    : 'not typed yet';
}

function ChooseSheet({ seat, onChoose }: { readonly seat: PaperSeat; readonly onChoose: (sheet: PaperSheet) => void }) {
  const evaluation = useEvaluation();
  const [code, setCode] = useState('');
  const [tried, setTried] = useState(false);
  const own = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  const waits = seat.onPaper && own !== undefined && own.kind !== 'none' && own.state !== 'locked';
  const sheet = seat.sheets.find((one) => one.code === code.trim().toUpperCase());
  if (waits) {
    return (
      <p className="warned roomy text">
        Lock your own card first: typing shows you what {seat.label} said. From then on no reopening of this round gives
        your own card back.
      </p>
    );
  }
  return (
    <form
      className="stack starts gap-8"
      aria-label="Type a filled sheet"
      onSubmit={(event) => {
        event.preventDefault();
        setTried(true);
        if (sheet) onChoose(sheet);
      }}
    >
      {seat.onPaper ? (
        <p className="text">
          What you type is shown to nobody before the reveal, to you neither once it is sent. Typed anew, a sheet
          replaces the one before as a whole. The first sheet you send binds you: your own card stays locked, whatever
          is reopened.
        </p>
      ) : null}
      <label htmlFor="sheet-code" className="strong">
        Code on the sheet
      </label>
      <span className="tools">
        <input
          id="sheet-code"
          className={`key ${styles.codeField}`}
          value={code}
          maxLength={4}
          autoComplete="off"
          autoCapitalize="characters"
          onChange={(event) => setCode(event.target.value)}
        />
        <Button type="submit">Type this sheet</Button>
      </span>
      {tried && !sheet ? (
        <p className="fault" role="alert">
          No sheet of {seat.label} has this code. Look at it again, or at whose sheet it is.
        </p>
      ) : null}
    </form>
  );
}
