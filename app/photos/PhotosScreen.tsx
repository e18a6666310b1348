'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PhotoList } from '#lib/contract/photo';
import { refusedOnWay } from '../_data/photoAnswer';
import type { PhotoQueueView } from '../_data/photoQueue';
import { refusalText } from '../_data/refusalText';
import { useTRPC } from '../_data/trpc';
import { usePhotoQueue } from '../_data/usePhotoQueue';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { FieldTick } from '../_parts/FieldTick';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { StatusPill } from '../_parts/StatusPill';
import { counted } from '../_parts/textWords';
import { AddMany } from './AddMany';
import { CloseUp } from './CloseUp';
import { ContactSheet } from './ContactSheet';
import { SideBySide } from './SideBySide';
import styles from './photos.module.css';

/** `/photos?id=…`: what is taken and what is missing, many at once, side by side, and one closely. */
export function PhotosScreen() {
  return (
    <EvaluationFrame here="photos">
      <Photos />
    </EvaluationFrame>
  );
}

function Photos() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const list = useQuery(trpc.photo.list.queryOptions({ id: evaluation.id }));
  if (!list.data) return list.error === null ? <Loading what="the pictures" /> : <Refusal error={list.error} />;
  return <Room list={list.data} />;
}

type Mode = 'sheet' | 'many' | 'compare';

function Room({ list }: { readonly list: PhotoList }) {
  const evaluation = useEvaluation();
  const { queue, view } = usePhotoQueue(evaluation.id, evaluation.viewer.seatId ?? 'owner');
  const [mode, go] = useState<Mode>('sheet');
  const [closeId, closeUp] = useState<string | null>(null);
  const close = list.photos.find((photo) => photo.id === closeId);
  const props = { list, queue };
  if (close) return <CloseUp key={close.id} {...props} photo={close} onBack={() => closeUp(null)} />;
  return (
    <div className="stack gap-20">
      <div className={`wrap between ${styles.photosBar}`}>
        <ModeButtons mode={mode} go={go} mayAdd={list.may.add} />
        <QueueLine view={view} onPutAway={queue.putAway} onRetry={(id) => void queue.retry(id)} />
      </div>
      {mode === 'sheet' ? <ContactSheet {...props} onOpen={closeUp} /> : null}
      {mode === 'many' ? <AddMany {...props} onDone={() => go('sheet')} /> : null}
      {mode === 'compare' ? <Compare /> : null}
      <CautionNote caution="privacy" />
    </div>
  );
}

const modes: readonly (readonly [Mode, string])[] = [
  ['sheet', 'Shot list'],
  ['many', 'Add many'],
  ['compare', 'Side by side'],
];

function ModeButtons({
  mode,
  go,
  mayAdd,
}: {
  readonly mode: Mode;
  readonly go: (mode: Mode) => void;
  readonly mayAdd: boolean;
}) {
  return (
    <div role="group" aria-label="What to do with pictures" className="wrap gap-8">
      {modes
        .filter(([key]) => key !== 'many' || mayAdd)
        .map(([key, words]) => (
          <Button key={key} tone={key === mode ? 'main' : 'plain'} aria-pressed={key === mode} onClick={() => go(key)}>
            {words}
          </Button>
        ))}
    </div>
  );
}

/** Any puppies of the litter side by side, in the order in which they were ticked. */
function Compare() {
  const evaluation = useEvaluation();
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const [chosen, choose] = useState<readonly string[]>(puppies.slice(0, 2).map((puppy) => puppy.id));
  return (
    <section className="stack gap-20" aria-label="Side by side">
      <fieldset className={`wrap ${styles.listForm}`}>
        <legend className="small">Whose pictures</legend>
        {puppies.map(({ id, name }) => (
          <FieldTick
            key={id}
            label={name}
            ticked={chosen.includes(id)}
            onChange={(on) => choose(on ? [...chosen, id] : chosen.filter((one) => one !== id))}
          />
        ))}
      </fieldset>
      {chosen.length === 0 ? <p>Tick the puppies to look at.</p> : <SideBySide puppyIds={chosen} />}
    </section>
  );
}

type Props = {
  readonly view: PhotoQueueView;
  readonly onPutAway: (id: string) => void;
  readonly onRetry: (id: string) => void;
};

/** LV2: where this device's pictures are, truthfully; and what was refused, with what to do about it. */
function QueueLine({ view, onPutAway, onRetry }: Props) {
  const refused = view.rows.filter((row) => row.code !== null);
  const waiting = view.rows.length - refused.length;
  const done = waiting === 0 ? 1 : (view.sent + (view.sending?.share ?? 0)) / (view.sent + waiting);
  return (
    <div className={`stack starts gap-8 ${styles.queue}`}>
      <div role="status">
        <StatusPill tone={waiting === 0 ? (view.storeFailed ? 'note' : 'calm') : 'note'}>
          {queueWords(view, waiting)}
        </StatusPill>
      </div>
      {waiting > 0 ? <progress className={styles.progress} value={done} max={1} aria-label="Pictures sent" /> : null}
      {view.rows.map((row) =>
        view.onWay[row.id] === undefined ? null : (
          <p key={row.id} className={`row gap-12 ${styles.refused}`}>
            <span>
              <b>{row.name}</b>: {refusalText({ data: { code: view.onWay[row.id] } })} It is tried again by itself.
            </span>
          </p>
        ),
      )}
      {refused.map((row) => (
        <p key={row.id} className={`row gap-12 ${styles.refused}`} role="alert">
          <span>
            <b>{row.name}</b>: {refusalText({ data: { code: row.code } })}
          </span>
          {refusedOnWay.has(row.code ?? '') ? (
            <Button onClick={() => onRetry(row.id)}>
              Try again<span className="aloud">: {row.name}</span>
            </Button>
          ) : null}
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
  if (waiting === 0)
    return `${sent === 0 ? 'No picture waits on this device' : `${counted(sent, 'picture')} sent, none waits`}.${memory}`;
  if (failures > 0)
    return `${counted(waiting, 'picture')} only on this device: no answer from the server, trying again.${memory}`;
  return `Sending: ${sent} on the server, ${waiting} to go.${memory}`;
}
