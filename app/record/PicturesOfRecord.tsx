'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { shots } from '#lib/photo/shot';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { FieldTick } from '../_parts/FieldTick';
import { keeperOf, PhotoThumb } from '../photos/PhotoThumb';
import { RecordSection } from './RecordSection';
import styles from './record.module.css';

/** The picture of each view to look at first, small, where somebody wants them on paper. */
export function PicturesOfRecord() {
  const { id, puppies } = useEvaluation();
  const trpc = useTRPC();
  const [wanted, setWanted] = useState(false);
  const list = useQuery(trpc.photo.list.queryOptions({ id })).data;
  const pictures = puppies.map((puppy) => ({
    puppy,
    kept: (list?.shots ?? [])
      .flatMap((view) => keeperOf(list?.photos ?? [], puppy.id, view) ?? [])
      .filter(({ kind }) => kind === 'picture'),
  }));
  if (pictures.every(({ kept }) => kept.length === 0)) return null;
  return (
    <>
      <div className="unprinted">
        <FieldTick label="With pictures, small" ticked={wanted} onChange={setWanted} />
      </div>
      {wanted ? (
        <RecordSection id="pictures" title="Pictures">
          {pictures
            .filter(({ kept }) => kept.length > 0)
            .map(({ puppy, kept }) => (
              <div key={puppy.id} className={styles.pictures}>
                <h3>{puppy.name}</h3>
                {kept.map((photo) => (
                  <figure key={photo.id}>
                    <PhotoThumb photo={photo} />
                    <figcaption className="small">{shots[photo.view].name}</figcaption>
                  </figure>
                ))}
              </div>
            ))}
        </RecordSection>
      ) : null}
    </>
  );
}
