'use client';

import { useState, type ReactNode } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { type ShotKey, shots } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { bringPictures } from './bringPictures';
import styles from './photos.module.css';

type Props = {
  readonly queue: PhotoQueue;
  readonly puppy: PuppyFace;
  readonly shot: ShotKey;
  readonly tile?: boolean;
  readonly children: ReactNode;
};

/** Opens the phone's own camera, or a choice of files on a desk; what comes back is queued at once. */
export function TakeShot({ queue, puppy, shot, tile = false, children }: Props) {
  const evaluation = useEvaluation();
  const [busy, setBusy] = useState(false);
  const { clip, name } = shots[shot];
  const bring = async (files: FileList | null) => {
    setBusy(true);
    const seat = evaluation.viewer.seatId ?? 'owner';
    await bringPictures(
      { queue, evaluationId: evaluation.id, seat },
      [...(files ?? [])].map((file) => ({ file, match: { puppyId: puppy.id, view: shot } })),
    );
    setBusy(false);
  };
  return (
    <label className={tile ? styles.open : `touch ${styles.take}`}>
      <input
        className="over"
        type="file"
        accept={clip ? 'video/mp4,video/webm' : 'image/*'}
        capture="environment"
        disabled={busy}
        aria-label={`Take ${puppy.name}, ${name}`}
        onChange={(event) => {
          void bring(event.target.files);
          event.target.value = '';
        }}
      />
      {busy ? <span>Making it small…</span> : children}
    </label>
  );
}
