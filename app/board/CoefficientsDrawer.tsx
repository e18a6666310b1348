'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CoefficientsView } from '#lib/contract/boardView';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { DataTable } from '../_parts/DataTable';
import { Drawer } from '../_parts/Drawer';
import { FieldChoice } from '../_parts/FieldChoice';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { twoDecimals } from '../_parts/figureWords';
import { undefinedWords } from '../_result/undefinedWords';

type DrawerProps = { readonly faces: Faces; readonly onClose: () => void };
type Coefficient = CoefficientsView['sheet'][string];

const WHOLE = '';

/** Agreement coefficients for those who want them: worked out when the drawer opens, each with its interval or its reason. */
export function CoefficientsDrawer({ faces, onClose }: DrawerProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data, error } = useQuery(trpc.board.coefficients.queryOptions({ id: evaluation.id }));
  const [chosen, setChosen] = useState(WHOLE);
  const options = [
    { key: WHOLE, words: 'The whole sheet (card totals)' },
    ...evaluation.sheet.criteria.map(({ key, name }) => ({ key, words: name })),
  ];
  return (
    <Drawer title="Coefficients of agreement" onClose={onClose}>
      <p>
        A coefficient near 1 says that the seats differ little beside how much the puppies differ; near 0, that they
        differ about as much. Littermates are alike, so these figures are low even where seats lie less than a point
        apart: read the points first, and never compare litters by them. Intervals are 95 of 100; a litter is small, so
        they are wide. Where scores are missing, the ICC forms have none.
      </p>
      <FieldChoice label="Of what" value={chosen} options={options} onChange={setChosen} />
      {error ? <Refusal error={error} /> : null}
      {data ? (
        <Table
          caption={chosen === WHOLE ? 'The whole sheet' : faces.criterionName(chosen)}
          group={chosen === WHOLE ? data.sheet : (data.byCriterion[chosen] ?? {})}
        />
      ) : null}
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
        return one
          ? [
              {
                key,
                head: name,
                cells: [
                  figures(one),
                  <span key="meaning" className="small">
                    {meaning}
                  </span>,
                ],
              },
            ]
          : [];
      })}
    />
  );
}

function figures(one: Coefficient): string {
  if ('undefined' in one) return `No figure: ${undefinedWords(one.undefined)}.`;
  return one.low === null || one.high === null
    ? `${twoDecimals(one.value)}, no interval`
    : `${twoDecimals(one.value)} (${twoDecimals(one.low)} to ${twoDecimals(one.high)})`;
}

type CoefficientWords = { readonly name: string; readonly meaning: string };

const shroutFleiss = 'Shrout & Fleiss 1979; McGraw & Wong 1996';

/** Coefficients of the drawer in the order shown, by their key, with what they are and the published source. */
const known: Readonly<Record<string, CoefficientWords>> = {
  alpha: { name: 'Krippendorff’s α, interval', meaning: 'Card totals, steps counted as equal. Krippendorff 2011.' },
  'alpha.ordinal': {
    name: 'Krippendorff’s α, ordinal',
    meaning: 'Only the order of the steps counts. Krippendorff 2011.',
  },
  'alpha.interval': { name: 'Krippendorff’s α, interval', meaning: 'Steps counted as equal. Krippendorff 2011.' },
  'alpha.nominal': {
    name: 'Krippendorff’s α, nominal',
    meaning: 'Same step or not, nothing between. Krippendorff 2011.',
  },
  'icc.1': { name: 'ICC(1), ICC(1,1)', meaning: `One seat, seats not told apart. ${shroutFleiss}.` },
  'icc.A,1': { name: 'ICC(A,1), ICC(2,1)', meaning: `One seat, its level counts. ${shroutFleiss}.` },
  'icc.C,1': { name: 'ICC(C,1), ICC(3,1)', meaning: `One seat, its level does not count. ${shroutFleiss}.` },
  'icc.k': { name: 'ICC(k), ICC(1,k)', meaning: `Mean of the panel, seats not told apart. ${shroutFleiss}.` },
  'icc.A,k': { name: 'ICC(A,k), ICC(2,k)', meaning: `Mean of the panel, levels count. ${shroutFleiss}.` },
  'icc.C,k': { name: 'ICC(C,k), ICC(3,k)', meaning: `Mean of the panel, levels do not count. ${shroutFleiss}.` },
  absolute: {
    name: 'ICC(A,1), generalised pivot',
    meaning:
      'One seat, its level counts; the interval holds on small panels and decides the word on the board. Tian & Cappelleri 2004.',
  },
  kendallW: {
    name: 'Kendall’s W',
    meaning: 'Do the seats rank the puppies alike, ties corrected. Kendall & Babington Smith 1939.',
  },
  lightKappa: { name: 'Light’s κ', meaning: 'Mean of the quadratically weighted κ over pairs of seats. Light 1971.' },
  fleissKappa: { name: 'Fleiss’ κ', meaning: 'Same step or not, over all seats. Fleiss 1971.' },
  acOne: {
    name: 'Gwet’s AC1',
    meaning: 'Same step or not, with a chance term that holds up when nearly all agree. Gwet 2008.',
  },
  acTwo: { name: 'Gwet’s AC2', meaning: 'The same with quadratic weights over the steps. Gwet 2014.' },
  percent: {
    name: 'Agreeing pairs',
    meaning: 'Mean share of pairs of seats on the same step, as a fraction. No allowance for chance.',
  },
};

const order = Object.keys(known);

function coefficientWords(key: string): CoefficientWords {
  return (Object.hasOwn(known, key) ? known[key] : undefined) ?? { name: key, meaning: '' };
}

/** Known coefficients first, in the order of the drawer; others after, by name. */
function compareCoefficients(first: string, second: string): number {
  const [one, other] = [order.indexOf(first), order.indexOf(second)];
  if (one >= 0 && other >= 0) return one - other;
  return one >= 0 ? -1 : other >= 0 ? 1 : first.localeCompare(second);
}
