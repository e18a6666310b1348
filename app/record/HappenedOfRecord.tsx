import { DataTable } from '../board/DataTable';
import { momentWords } from '../board/momentWords';
import { eventWords } from './eventWords';
import styles from './HappenedOfRecord.module.css';
import type { RecordProps } from './FactsOfRecord';
import { hashHead } from './hashHead';
import { RecordSection } from './RecordSection';

/** What happened, in order, each line chained to the one before by its hash. */
export function HappenedOfRecord({ entries }: RecordProps) {
  return (
    <RecordSection id="happened" title="What happened">
      <p>Each line carries a hash made from its words and the hash of the line before it on this server, so a line changed or taken out afterwards breaks the chain.</p>
      <DataTable
        caption="In order"
        heads={['When', 'Who', 'What', 'Hash']}
        rows={entries.map((entry) => ({
          key: String(entry.seq),
          head: momentWords(entry.at),
          cells: [entry.actor, <span key="what" className={styles.what}>{eventWords(entry)}</span>, <code key="hash">{hashHead(entry.hash)}</code>],
        }))}
      />
    </RecordSection>
  );
}
