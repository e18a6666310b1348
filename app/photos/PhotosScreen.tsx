'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { useTRPC } from '../_data/trpc';
import { usePhotoQueue } from '../_data/usePhotoQueue';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { AddMany } from './AddMany';
import { CloseUp } from './CloseUp';
import { Compare } from './Compare';
import { ContactSheet } from './ContactSheet';
import styles from './Photos.module.css';
import { QueueLine } from './QueueLine';

/** `/photos?id=…`: what is taken and what is missing, many at once, side by side, and one closely. */
export function PhotosScreen() {
  return <EvaluationFrame here="photos">{(evaluation) => <Photos evaluation={evaluation} />}</EvaluationFrame>;
}

function Photos({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const list = useQuery(trpc.photo.list.queryOptions({ id: evaluation.id }));
  if (!list.data) return list.error === null ? <Loading what="the pictures" /> : <Refusal error={list.error} />;
  return <Room evaluation={evaluation} list={list.data} />;
}

type Mode = 'sheet' | 'many' | 'compare';

function Room({ evaluation, list }: { readonly evaluation: EvaluationView; readonly list: PhotoList }) {
  const { queue, view } = usePhotoQueue(evaluation.id, evaluation.viewer.seatId ?? 'owner');
  const [mode, go] = useState<Mode>('sheet');
  const [closeId, closeUp] = useState<string | null>(null);
  const close = list.photos.find((photo) => photo.id === closeId);
  const props = { evaluation, list, queue };
  if (close) return <CloseUp key={close.id} {...props} photo={close} onBack={() => closeUp(null)} />;
  return (
    <div className={styles.room}>
      <div className={styles.bar}>
        <ModeButtons mode={mode} go={go} mayAdd={list.may.add} />
        <QueueLine view={view} onPutAway={queue.putAway} onRetry={(id) => void queue.retry(id)} />
      </div>
      {mode === 'sheet' && <ContactSheet {...props} onOpen={closeUp} />}
      {mode === 'many' && <AddMany {...props} onDone={() => go('sheet')} />}
      {mode === 'compare' && <Compare evaluation={evaluation} />}
      <CautionNote caution="privacy" />
    </div>
  );
}

const modes: readonly (readonly [Mode, string])[] = [['sheet', 'Shot list'], ['many', 'Add many'], ['compare', 'Side by side']];

function ModeButtons({ mode, go, mayAdd }: { readonly mode: Mode; readonly go: (mode: Mode) => void; readonly mayAdd: boolean }) {
  return (
    <div role="group" aria-label="What to do with pictures" className={styles.modes}>
      {modes.filter(([key]) => key !== 'many' || mayAdd).map(([key, words]) => (
        <Button key={key} tone={key === mode ? 'main' : 'plain'} aria-pressed={key === mode} onClick={() => go(key)}>
          {words}
        </Button>
      ))}
    </div>
  );
}
