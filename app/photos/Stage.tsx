'use client';

import type { KeyboardEvent, ReactNode } from 'react';
import type { Point } from '#lib/photo/pinhole';
import type { PixelSize } from '#lib/photo/placing';
import { type StageView, viewBoxOf } from '#lib/photo/stageView';
import styles from './photos.module.css';
import { usePhotoAddress } from './PhotoThumb';
import { useStage } from './useStage';

export type StagePhoto = PixelSize & { readonly id: string; readonly placeholder: string };

type Props = {
  readonly photo: StagePhoto;
  /** Whose picture, and of what: read aloud. */
  readonly label: string;
  readonly view: StageView;
  readonly onView: (view: StageView) => void;
  readonly mirrored?: boolean;
  readonly guides?: boolean;
  readonly onTap?: (at: Point) => void;
  readonly onKey?: (event: KeyboardEvent) => boolean;
  /** Marks, drawn in the picture's own pixels; they turn with it when it is mirrored. */
  readonly children?: ReactNode;
};

/** One picture to look at closely: two fingers, a wheel or the keys + − 0 and the arrows. */
export function Stage({ photo, label, view, onView, mirrored = false, guides = false, onTap, onKey, children }: Props) {
  const hands = useStage({ view, onView, size: photo, mirrored, onTap, onKey });
  const { src, onError } = usePhotoAddress(photo.id, 'large');
  const [left, top, width, height] = viewBoxOf(view, photo);
  const turn = mirrored ? `translate(${photo.width} 0) scale(-1 1)` : undefined;
  return (
    <div className={`stack ${styles.frame}`}>
      <svg
        {...hands}
        viewBox={`${left} ${top} ${width} ${height}`}
        role="application"
        aria-roledescription="picture"
        aria-label={`${label}. Plus, minus, zero and the arrow keys move closer and about.`}
        tabIndex={0}
        className={`${styles.stage} ${onTap ? styles.picking : ''}`}
      >
        <g transform={turn}>
          {photo.placeholder !== '' ? (
            <image href={photo.placeholder} width={photo.width} height={photo.height} preserveAspectRatio="none" />
          ) : null}
          <image href={src} onError={onError} width={photo.width} height={photo.height} preserveAspectRatio="none" />
          {children}
        </g>
      </svg>
      {guides ? <Guides /> : null}
    </div>
  );
}

const shares = [20, 40, 60, 80] as const;

/** Plain level and upright lines over the picture: they stay where they are when it moves. */
function Guides() {
  return (
    <svg className={styles.guides} viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      {shares.map((at) => (
        <g key={at}>
          <path d={`M0 ${at}H100M${at} 0V100`} className={styles.guideCasing} />
          <path d={`M0 ${at}H100M${at} 0V100`} className={styles.guideLine} />
        </g>
      ))}
    </svg>
  );
}
