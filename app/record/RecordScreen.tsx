'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { facesOf } from '../board/facesOf';
import { HomeLinks } from '../home/HomeLinks';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { CautionNote } from '../_parts/CautionNote';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { FactsOfRecord } from './FactsOfRecord';
import { HappenedOfRecord } from './HappenedOfRecord';
import { PanelOfRecord } from './PanelOfRecord';
import styles from './RecordScreen.module.css';
import { ResultOfRecord } from './ResultOfRecord';

/** Everything worth keeping of one evaluation on paper: prints on A4 and Letter. */
export function RecordScreen() {
  return <EvaluationFrame here="record">{(evaluation) => <RecordOf evaluation={evaluation} />}</EvaluationFrame>;
}

function RecordOf({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const { data: entries, error } = useQuery(trpc.record.list.queryOptions({ id: evaluation.id }));
  if (!entries) return error === null ? <Loading what="the record" /> : <Refusal error={error} />;
  const props = { evaluation, entries, faces: facesOf(evaluation) };
  return (
    <div className={styles.record}>
      <div className={styles.print}>
        <Button tone="main" onClick={() => window.print()}>
          Print this record
        </Button>
      </div>
      <FactsOfRecord {...props} />
      <PanelOfRecord {...props} />
      {evaluation.revealed ? (
        <ResultOfRecord {...props} />
      ) : (
        <p>The round is not revealed: there is no result yet, and nothing has been worked out.</p>
      )}
      <HappenedOfRecord {...props} />
      {evaluation.phase === 'sealed' && evaluation.viewer.owner ? <HomeLinks id={evaluation.id} puppies={evaluation.puppies} /> : null}
      <section aria-labelledby="cautions" className={styles.cautions}>
        <h2 id="cautions">How to read this</h2>
        <p>This is what these people thought of these puppies on that day, each for itself, and what was decided on it.</p>
        <CautionNote caution="early-days" />
        <CautionNote caution="not-veterinary" />
        <CautionNote caution="hereditary" />
        <CautionNote caution="worth" />
      </section>
    </div>
  );
}
