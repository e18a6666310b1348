import { checkCatalogue } from '#lib/sheet/checkCatalogue';
import { CautionNote } from '../_parts/CautionNote';
import type { SectionProps } from './AgreementSection';
import { type AnswerGroup, answerGroups } from './answerGroups';
import { CheckFindings } from './CheckFindings';
import styles from './ChecksSection.module.css';
import { DataTable } from './DataTable';

/** Checks stand beside merit, never in it: what each seat found, in words, and what holds a keep. */
export function ChecksSection({ evaluation, board, faces }: SectionProps) {
  const checks = checkCatalogue.filter(({ key }) => evaluation.sheet.checks.includes(key));
  if (checks.length === 0) return null;
  return (
    <section aria-labelledby="checks" className={styles.section}>
      <h2 id="checks">Checks</h2>
      <CheckFindings board={board} faces={faces} />
      <DataTable
        caption="What the seats that examined found, puppy by puppy"
        heads={['Check', ...evaluation.puppies.map(({ name }) => name)]}
        rows={checks.map((check) => ({
          key: check.key,
          head: check.name,
          cells: evaluation.puppies.map((puppy) => {
            const line = board.checks.find((one) => one.puppy === puppy.id && one.check === check.key);
            if (!line) return <span key={puppy.id} className="small">no answer</span>;
            return (
              <span key={puppy.id} className={styles.cell}>
                {told(answerGroups(line, faces)).map(({ words, seats, usual }) => (
                  <span key={words} className={usual ? styles.usual : styles.unusual}>
                    {words}
                    {usual ? '' : ` (${seats.join(', ')})`}
                  </span>
                ))}
                {line.holds ? <b className={styles.hold}>holds a keep</b> : null}
              </span>
            );
          }),
        }))}
      />
      <CautionNote caution="not-veterinary" />
    </section>
  );
}

/** Who did not examine is left out where another seat did. */
function told(groups: readonly AnswerGroup[]): readonly AnswerGroup[] {
  const examined = groups.filter((group) => group.examined);
  return examined.length === 0 ? groups : examined;
}
