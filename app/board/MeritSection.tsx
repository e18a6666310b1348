'use client';

import { type KeyboardEvent, useState } from 'react';
import type { BoardView } from '#lib/contract/boardView';
import type { PurposeKey } from '#lib/contract/setup';
import { structureAlone } from '#lib/sheet/cautions';
import { readings } from '#lib/reconcile/sentences/readings';
import { readingSentence, sharedErrorSentence } from '#lib/reconcile/sentences/robustnessSentences';
import type { Faces } from '../_evaluation/facesOf';
import { Disclosure } from '../_parts/Disclosure';
import { MeritPicture } from '../_parts/MeritPicture';
import { Sentence } from '../_parts/Sentence';
import { signed } from '../_parts/figureWords';
import { capital, purposeWords } from '../_parts/textWords';
import { byPurpose, MeritTables, type PurposeResult } from '../_result/ResultTables';
import { RobustnessPart } from './RobustnessPart';
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
          <div
            role="tabpanel"
            id={`purpose-${shown.key}`}
            aria-labelledby={`tab-${shown.key}`}
            tabIndex={0}
            className="stack gap-16"
          >
            <OnePurpose result={shown} board={board} faces={faces} />
          </div>
        </>
      ) : (
        <OnePurpose result={shown} board={board} faces={faces} />
      )}
      <RobustnessPart />
      <FormulaPart />
    </section>
  );
}

function OnePurpose({ result, board, faces }: MeritSectionProps & { readonly result: PurposeResult }) {
  return (
    <>
      <Sentence>{result.sentence}</Sentence>
      <p className="small text">{readingSentence}</p>
      <MeritPicture merit={result.merit} puppyOf={(id) => faces.puppy(id)} label={pictureLabel(result, faces)} />
      {result.meanSentence === null ? null : <p className="text">{result.meanSentence}</p>}
      {result.key === 'keep' ? null : <p className="text">{structureAlone}</p>}
      <p className="small figures text">{levelWords(result)}</p>
      <p className="small text">{sharedErrorSentence}</p>
      <Disclosure words="The same as a table">
        <MeritTables result={result} board={board} faces={faces} />
      </Disclosure>
    </>
  );
}

/** ST3: what the numbers of a board are made by, and where that is written. */
const formulas = [
  [
    'Merit',
    'The weighted mean of a puppy’s qualities over the criteria, less the litter’s mean. A score is taken as criterion + seat + puppy + puppy on this criterion + the seat’s liking for the puppy + the seat on this criterion + chance; a fault by degrees counts as quality lost, whichever its side. Linear mixed model (Henderson 1975), its spreads drawn rather than fixed (Gelman et al. 2013, chapter 15).',
  ],
  [
    'Chance',
    'The share of draws of that model, given the scores and the second looks, in which a puppy is the best of those eligible. Looks: normal ogive with ties (Glenn and David 1960), drawn by data augmentation (Albert and Chib 1993).',
  ],
  [
    'Liking',
    'The standard deviation of a seat’s own part in puppies as a whole, from puppy to puppy; one for each seat, drawn towards the panel’s.',
  ],
  [
    'Scatter',
    'The standard deviation of what is left of a single score, rounding to whole points (a twelfth of the squared step) included.',
  ],
] as const;

function FormulaPart() {
  return (
    <Disclosure words="How these numbers are made">
      <dl className="stack gap-6">
        {formulas.map(([name, words]) => (
          <div key={name}>
            <dt className="bold">{name}</dt>
            <dd className="text">{words}</dd>
          </div>
        ))}
      </dl>
    </Disclosure>
  );
}

function pictureLabel({ key, sentence, merit }: PurposeResult, faces: Faces): string {
  const order = merit.map(
    (one) => `${faces.puppyName(one.puppy)} ${signed(one.estimate)}, first in ${readings(one.ranks[0] ?? 0)} of 100`,
  );
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
      <p className={`small ${styles.note}`}>
        Different ends, not a ladder: each weighs the same scores for another life.
      </p>
    </div>
  );
}
