'use client';

import { useEffect, useMemo, useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { Match } from '#lib/photo/matchSequence';
import { shots } from '#lib/photo/shot';
import { Drawer } from '../_parts/Drawer';
import { MatchForm } from './MatchForm';
import styles from './Photos.module.css';

type Props = {
  readonly files: readonly File[];
  readonly matches: readonly Match[];
  readonly puppies: readonly PuppyFace[];
  readonly onMatch: (change: { readonly at: number; readonly match: Match; readonly onwards: boolean }) => void;
};

/** The pictures as they were dropped, each with whose it is taken to be. */
export function DroppedPictures({ files, matches, puppies, onMatch }: Props) {
  const [at, edit] = useState<number | null>(null);
  const addresses = useMemo(() => files.map((file) => URL.createObjectURL(file)), [files]);
  useEffect(() => () => addresses.forEach((address) => URL.revokeObjectURL(address)), [addresses]);
  const name = (match: Match | undefined) => puppies.find((puppy) => puppy.id === match?.puppyId)?.name ?? 'nobody';
  const edited = at === null ? undefined : matches[at];
  return (
    <>
      <ol className={styles.dropped}>
        {files.map((file, index) => {
          const match = matches[index];
          const words = match ? `${name(match)}, ${shots[match.view].name}` : 'not matched';
          return (
            <li key={`${file.name} ${file.lastModified} ${index}`}>
              <button type="button" className={styles.tile} onClick={() => edit(index)} aria-label={`Picture ${index + 1}, ${file.name}: ${words}`}>
                {file.type.startsWith('video/') ? <span className={styles.clip}>clip</span> : <img src={addresses[index]} alt="" loading="lazy" />}
                <span className={styles.matched}>
                  <b>{name(match)}</b>
                  <span className="small">{match ? shots[match.view].name : ''}</span>
                </span>
              </button>
            </li>
          );
        })}
      </ol>
      {at !== null && edited && (
        <Drawer title={`Picture ${at + 1}`} onClose={() => edit(null)}>
          {addresses[at] !== undefined && <img src={addresses[at]} alt="" className={styles.large} />}
          <MatchForm
            puppies={puppies}
            match={edited}
            words="It is this one"
            mayGoOn
            onMatch={(match, onwards) => {
              onMatch({ at, match, onwards });
              edit(null);
            }}
          />
        </Drawer>
      )}
    </>
  );
}
