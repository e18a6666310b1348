import { checkByKey } from '#lib/sheet/checkByKey';
import { answerGroups } from '../board/answerGroups';
import { DataTable } from '../board/DataTable';
import { RecordSection } from './RecordSection';
import type { ResultProps } from './ResultOfRecord';

/** Checks puppy by puppy: what differs from normal in full, what all seats found normal by its name. */
export function ChecksOfRecord({ evaluation, revealed, faces }: ResultProps) {
  const { checks } = revealed.board;
  return (
    <RecordSection id="checks" title="Checks">
      {checks.length === 0 ? (
        <p>No check was answered.</p>
      ) : (
        <DataTable
          caption="What the seats found"
          heads={['Puppy', 'Normal, by every seat that looked', 'Anything else, with who said so']}
          rows={evaluation.puppies.map((puppy) => {
            const lines = checks.filter((line) => line.puppy === puppy.id).map((line) => ({ line, groups: answerGroups(line, faces) }));
            const usual = lines.filter(({ groups }) => groups.every((group) => group.usual));
            const rest = lines.filter(({ groups }) => !groups.every((group) => group.usual));
            const name = (key: string) => checkByKey(key)?.name.toLowerCase() ?? key;
            return {
              key: puppy.id,
              head: puppy.name,
              cells: [
                usual.map(({ line }) => name(line.check)).join(', ') || 'none',
                rest.map(({ line, groups }) => `${name(line.check)}: ${groups.map(({ words, seats }) => `${words} (${seats.join(', ')})`).join('; ')}`).join('. ') || 'nothing',
              ],
            };
          })}
        />
      )}
    </RecordSection>
  );
}
