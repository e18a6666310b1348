'use client';

import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import { counted } from '../_parts/counted';
import { CloseLook } from './CloseLook';
import { noAnswerWords } from './noAnswerWords';
import styles from './OpenBatch.module.css';
import { OpenLookTable } from './OpenLookTable';

type BatchProps = { readonly looks: readonly LookView[]; readonly evaluation: EvaluationView; readonly faces: Faces };

/** The batch that is open: pair after pair, one's own private answers, and for whoever leads the close. Nothing of others. */
export function OpenBatch({ looks, evaluation, faces }: BatchProps) {
  const [at, setAt] = useState(() => Math.max(0, looks.findIndex((look) => look.own === null)));
  const look = looks[at] ?? looks[0];
  if (!look) return null;
  const words = (one: LookView) => `${faces.puppyName(one.firstPuppyId)} and ${faces.puppyName(one.secondPuppyId)}`;
  const nextAt = looks.findIndex((one, index) => index !== at && one.own === null);
  const next = looks[nextAt];
  const open = looks.filter((one) => one.own === null).length;
  return (
    <>
      <section aria-labelledby="open-batch" className={styles.batch}>
        <h2 id="open-batch">Second looks for place {faces.place(look.slotId)}</h2>
        {looks.length > 1 ? (
          <ol className={styles.pairs} aria-label="Pairs of this batch">
            {looks.map((one, index) => (
              <li key={one.id}>
                <button type="button" aria-current={index === at ? 'step' : undefined} onClick={() => setAt(index)}>
                  <span>
                    {index + 1}. {words(one)}
                  </span>
                  {one.mayAnswer ? <span className="small">{one.own === null ? 'open' : 'answered'}</span> : null}
                </button>
              </li>
            ))}
          </ol>
        ) : null}
        {look.mayAnswer ? null : <p className={styles.told}>{noAnswerWords(look, evaluation)}</p>}
      </section>
      <OpenLookTable
        key={look.id}
        look={look}
        evaluation={evaluation}
        faces={faces}
        next={next && next.mayAnswer ? { words: `Next pair: ${words(next)}`, go: () => setAt(nextAt) } : null}
      />
      {look.mayAnswer && looks.length > 1 && open === 0 ? (
        <p role="status" className={styles.told}>
          You have answered all {counted(looks.length, 'pair')}. You can change an answer until the batch closes.
        </p>
      ) : null}
      <CloseLook looks={looks} evaluation={evaluation} />
    </>
  );
}
