'use client';

import { type KeyboardEvent, useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import type { PurposeKey } from '#lib/contract/setup';
import { structureAlone } from '#lib/sheet/cautions';
import { readings } from '#lib/reconcile/sentences/readings';
import type { Faces } from '../_evaluation/facesOf';
import { Disclosure } from '../_parts/Disclosure';
import { MeritPicture } from '../_parts/MeritPicture';
import { Sentence } from '../_parts/Sentence';
import { signed } from '../_parts/figureWords';
import { capital, purposeWords } from '../_parts/textWords';
import { byPurpose, MeritTables, type PurposeResult } from '../_result/ResultTables';
import styles from './board.module.css';

type MeritSectionProps = { readonly board: BoardView; readonly faces: Faces };

/** Who stands where, for each purpose: the sentence first, then the picture, then its table. */
export function MeritSection({ board, faces }: MeritSectionProps) {
  const purposes = byPurpose(board.purposes);
  const [chosen, setChosen] = useState(purposes[0]?.key);
  const shown = purposes.find(({ key }) => key === chosen) ?? purposes[0];
  if (!shown) return null;
  const several = purposes.length > 1;
  return (
    <section aria-labelledby="merit" className="stack gap-16">
      <h2 id="merit">Who stands where</h2>
      {several ? (
        <>
          <PurposeTabs keys={purposes.map(({ key }) => key)} chosen={shown.key} onChoose={setChosen} />
          <div role="tabpanel" id={`purpose-${shown.key}`} aria-labelledby={`tab-${shown.key}`} tabIndex={0} className="stack gap-16">
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
      {result.meanSentence === null ? null : <p className="text">{result.meanSentence}</p>}
      {result.key === 'keep' ? null : <p className="text">{structureAlone}</p>}
      <p className="small figures text">{levelWords(result)}</p>
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

type PurposeTabsProps = {
  readonly keys: readonly PurposeKey[];
  readonly chosen: PurposeKey;
  readonly onChoose: (key: PurposeKey) => void;
};

const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowLeft: -1 };

/** Purposes side by side: three ends, not a ladder. Arrow keys walk through them. */
function PurposeTabs({ keys, chosen, onChoose }: PurposeTabsProps) {
  const walk = (event: KeyboardEvent) => {
    const step = steps[event.key];
    const next = step === undefined ? undefined : keys[(keys.indexOf(chosen) + step + keys.length) % keys.length];
    if (next === undefined) return;
    event.preventDefault();
    onChoose(next);
    document.getElementById(`tab-${next}`)?.focus();
  };
  return (
    <div>
      <div role="tablist" aria-label="Purposes" className="wrap underlined" onKeyDown={walk}>
        {keys.map((key) => (
          <button
            key={key}
            type="button"
            role="tab"
            id={`tab-${key}`}
            aria-selected={key === chosen}
            aria-controls={key === chosen ? `purpose-${key}` : undefined}
            tabIndex={key === chosen ? 0 : -1}
            className={`bare ${styles.tab}`}
            onClick={() => onChoose(key)}
          >
            {capital(purposeWords[key])}
          </button>
        ))}
      </div>
      <p className={`small ${styles.note}`}>Different ends, not a ladder: each weighs the same scores for another life.</p>
    </div>
  );
}
