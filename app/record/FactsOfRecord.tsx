import type { RecordEntry } from '#lib/contract/decisionView';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { collarWords, counted, phaseWords } from '../_parts/textWords';
import { dayWords, momentWords } from '../_parts/timeWords';
import { DataTable } from '../_parts/DataTable';
import type { Faces } from '../_evaluation/facesOf';
import styles from './record.module.css';
import { RecordSection } from './RecordSection';

export type RecordProps = { readonly entries: readonly RecordEntry[]; readonly faces: Faces };

/** What was evaluated, when and how: the head of the record. */
export function FactsOfRecord({ entries }: RecordProps) {
  const evaluation = useEvaluation();
  return (
    <RecordSection id="evaluation" title={`${evaluation.name}, ${dayWords(evaluation.heldOn)}`}>
      <dl className="stack gap-4">
        {factLines(evaluation, entries).map(([name, words]) => (
          <div key={name} className={`grid gap-12 ${styles.fact}`}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <DataTable
        caption="Puppies"
        heads={['Puppy', 'Sex', 'Collar', 'Second mark', 'On the day']}
        rows={evaluation.puppies.map((puppy) => ({
          key: puppy.id,
          head: puppy.name,
          cells: [puppy.sex, collarWords(puppy.collar), puppy.secondMark, puppy.withdrawn ? 'withdrawn' : 'shown'],
        }))}
      />
    </RecordSection>
  );
}

function factLines(
  { litterName, breed, ageDays, puppies, sheet, round, phase }: EvaluationView,
  entries: readonly RecordEntry[],
): [string, string][] {
  const sealed = entries.findLast((entry) => entry.kind === 'sealed');
  const medium = round === null ? '' : round.medium === 'table' ? 'puppies on the table' : 'photographs';
  const lines: [string, string][] = [
    ['Litter', breed === '' ? litterName : `${litterName}, ${breed}`],
    ['Age', `${ageDays} days`],
    ['Puppies', puppyCount(puppies)],
    [
      'Sheet',
      `${sheet.name}: ${counted(sheet.criteria.length, 'criterion', 'criteria')}, scale ${sheet.scale.low} to ${sheet.scale.high}`,
    ],
    ['Scored from', medium],
    ['State', sealed ? `sealed ${momentWords(sealed.at)}` : phaseWords[phase]],
  ];
  return lines.filter(([, words]) => words !== '');
}

/** As the head of the page counts them, with those that left said beside. */
function puppyCount(puppies: EvaluationView['puppies']): string {
  const gone = puppies.filter(({ withdrawn }) => withdrawn).length;
  return `${counted(puppies.length - gone, 'puppy', 'puppies')}${gone === 0 ? '' : `, and ${gone} withdrawn`}`;
}
