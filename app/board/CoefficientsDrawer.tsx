'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CoefficientsView } from '#lib/contract/boardView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useTRPC } from '../_data/trpc';
import { Drawer } from '../_parts/Drawer';
import { FieldChoice } from '../_parts/FieldChoice';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { twoDecimals } from '../_parts/twoDecimals';
import { coefficientWords, compareCoefficients } from './coefficientWords';
import { DataTable } from './DataTable';
import type { Faces } from './facesOf';
import { undefinedWords } from './undefinedWords';

type DrawerProps = { readonly evaluation: EvaluationView; readonly faces: Faces; readonly onClose: () => void };
type Coefficient = CoefficientsView['sheet'][string];

const WHOLE = '';

/** Agreement coefficients for those who want them: worked out when the drawer opens, each with its interval or its reason. */
export function CoefficientsDrawer({ evaluation, faces, onClose }: DrawerProps) {
  const trpc = useTRPC();
  const { data, error } = useQuery(trpc.board.coefficients.queryOptions({ id: evaluation.id }));
  const [chosen, setChosen] = useState(WHOLE);
  const options = [{ key: WHOLE, words: 'The whole sheet (card totals)' }, ...evaluation.sheet.criteria.map(({ key, name }) => ({ key, words: name }))];
  return (
    <Drawer title="Coefficients of agreement" onClose={onClose}>
      <p>
        A coefficient near 1 says that the seats differ little beside how much the puppies differ; near 0, that they differ about as much. Littermates
        are alike, so these figures are low even where seats lie less than a point apart: read the points first, and never compare litters by them.
        Intervals are 95 of 100; a litter is small, so they are wide. Where scores are missing, the ICC forms have none.
      </p>
      <FieldChoice label="Of what" value={chosen} options={options} onChange={setChosen} />
      {error ? <Refusal error={error} /> : null}
      {data ? <Table caption={chosen === WHOLE ? 'The whole sheet' : faces.criterionName(chosen)} group={chosen === WHOLE ? data.sheet : (data.byCriterion[chosen] ?? {})} /> : null}
      {!data && !error ? <Loading what="the coefficients" /> : null}
    </Drawer>
  );
}

function Table({ caption, group }: { readonly caption: string; readonly group: CoefficientsView['sheet'] }) {
  const keys = Object.keys(group).sort(compareCoefficients);
  return (
    <DataTable
      caption={caption}
      heads={['Coefficient', 'Value and interval', 'What it is, and where from']}
      rows={keys.flatMap((key) => {
        const one = group[key];
        const { name, meaning } = coefficientWords(key);
        return one ? [{ key, head: name, cells: [figures(one), <span key="meaning" className="small">{meaning}</span>] }] : [];
      })}
    />
  );
}

function figures(one: Coefficient): string {
  if ('undefined' in one) return `No figure: ${undefinedWords(one.undefined)}.`;
  return one.low === null || one.high === null ? `${twoDecimals(one.value)}, no interval` : `${twoDecimals(one.value)} (${twoDecimals(one.low)} to ${twoDecimals(one.high)})`;
}
