'use client';

import { cautions } from '#lib/sheet/cautions';
import { Disclosure } from '../_parts/Disclosure';
import { useWide } from '../_parts/useWide';
import styles from './score.module.css';
import type { Step } from './steps';

const summaryWords = {
  score: 'Why it matters, and what changes later',
  free: 'Why it matters, and what changes later',
  check: 'What to do with it',
  day: 'What to keep in mind',
  overall: 'What it is for',
} as const;
const steadiness = { low: 'not very steady', medium: 'fairly steady', high: 'steady' } as const;

/** Why it matters, how far eight weeks can be leaned on, what changes later: folded on a telephone, open on a desk. */
export function StepHelp({ step }: { readonly step: Step }) {
  const wide = useWide();
  const lines = helpLines(step);
  return (
    <Disclosure key={String(wide)} bare className={styles.help} open={wide} words={summaryWords[step.kind]}>
      <dl>
        {lines.map(([name, words]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </Disclosure>
  );
}

function helpLines(step: Step): readonly (readonly [string, string])[] {
  switch (step.kind) {
    case 'score':
    case 'free':
      return [
        ['Why it matters', step.criterion.why],
        [`At eight weeks: ${steadiness[step.criterion.steadiness.level]}`, step.criterion.steadiness.note],
        ['Later', step.criterion.later],
      ];
    case 'check':
      return [
        ['Caution', step.check.caution],
        [
          'In the decision',
          step.check.holdsKeep
            ? 'Watch or not normal holds a show or breeding keep until a veterinary surgeon has answered.'
            : 'It is told, and holds nothing.',
        ],
        [cautions['not-veterinary'].title, cautions['not-veterinary'].text],
      ];
    case 'day':
      return [[cautions.fear.title, cautions.fear.text]];
    case 'overall':
      return [
        [
          'What it is for',
          'Asked last, so that it does not steer the rest. It is compared with the criteria and never added to them.',
        ],
        [cautions.worth.title, cautions.worth.text],
      ];
  }
}
