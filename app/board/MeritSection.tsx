'use client';

import { useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import { readings } from '#lib/reconcile/sentences/readings';
import { MeritPicture } from '../_parts/MeritPicture';
import { purposeWords } from '../_parts/purposeWords';
import { Sentence } from '../_parts/Sentence';
import { byPurpose } from './byPurpose';
import { capital } from './capital';
import { Disclosure } from './Disclosure';
import type { Faces } from './facesOf';
import { MeritTables } from './MeritTables';
import styles from './MeritSection.module.css';
import { PurposeTabs } from './PurposeTabs';
import { signed } from './signed';

export type PurposeResult = BoardView['purposes'][number];

type MeritSectionProps = { readonly board: BoardView; readonly faces: Faces };

/** Who stands where, for each purpose: the sentence first, then the picture, then its table. */
export function MeritSection({ board, faces }: MeritSectionProps) {
  const purposes = byPurpose(board.purposes);
  const [chosen, setChosen] = useState(purposes[0]?.key);
  const shown = purposes.find(({ key }) => key === chosen) ?? purposes[0];
  if (!shown) return null;
  const several = purposes.length > 1;
  return (
    <section aria-labelledby="merit" className={styles.section}>
      <h2 id="merit">Who stands where</h2>
      {several ? (
        <>
          <PurposeTabs keys={purposes.map(({ key }) => key)} chosen={shown.key} onChoose={setChosen} />
          <div role="tabpanel" id={`purpose-${shown.key}`} aria-labelledby={`tab-${shown.key}`} tabIndex={0} className={styles.section}>
            <OnePurpose result={shown} board={board} faces={faces} />
          </div>
        </>
      ) : (
        <OnePurpose result={shown} board={board} faces={faces} />
      )}
    </section>
  );
}

function OnePurpose({ result, board, faces }: MeritSectionProps & { readonly result: PurposeResult }) {
  return (
    <>
      <Sentence>{result.sentence}</Sentence>
      <MeritPicture merit={result.merit} puppyOf={(id) => faces.puppy(id)} label={pictureLabel(result, faces)} />
      {result.meanSentence === null ? null : <p className={styles.why}>{result.meanSentence}</p>}
      <p className={`small figures ${styles.why}`}>{levelWords(result)}</p>
      <Disclosure words="The same as a table">
        <MeritTables result={result} board={board} faces={faces} />
      </Disclosure>
    </>
  );
}

function pictureLabel({ key, sentence, merit }: PurposeResult, faces: Faces): string {
  const order = merit.map((one) => `${faces.puppyName(one.puppy)} ${signed(one.estimate)}, first in ${readings(one.ranks[0] ?? 0)} of 100`);
  return `${capital(purposeWords[key])}. ${sentence} Points from the litter mean: ${order.join('; ')}.`;
}

function levelWords({ level }: PurposeResult): string {
  return `The litter itself lies at ${level.value.toFixed(1)} on the sheet’s scale, between ${level.low.toFixed(1)} and ${level.high.toFixed(1)} in 90 of 100 readings. The picture shows only how the puppies differ.`;
}
