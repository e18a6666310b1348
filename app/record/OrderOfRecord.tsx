import { readings } from '#lib/reconcile/sentences/readings';
import { MeritPicture } from '../_parts/MeritPicture';
import { purposeWords } from '../_parts/purposeWords';
import { Sentence } from '../_parts/Sentence';
import { DataTable } from '../board/DataTable';
import type { Faces } from '../board/facesOf';
import type { PurposeResult } from '../board/MeritSection';
import { signed } from '../board/signed';
import { RankTable } from '../board/RankTable';
import { RecordSection } from './RecordSection';

/** One purpose's order: its sentence, its picture, and its figures with intervals and the chance of every rank. */
export function OrderOfRecord({ result, faces }: { readonly result: PurposeResult; readonly faces: Faces }) {
  const name = (id: string) => faces.puppyName(id);
  const purpose = purposeWords[result.key];
  return (
    <RecordSection id={`order-${result.key}`} title={`Order for a ${purpose}`}>
      <Sentence>{result.sentence}</Sentence>
      <MeritPicture merit={result.merit} puppyOf={(id) => faces.puppy(id)} label={result.sentence} />
      {result.meanSentence === null ? null : <p>{result.meanSentence}</p>}
      <DataTable
        figures
        caption={`Merit for a ${purpose}, in points from the litter mean`}
        heads={['Puppy', 'Estimate', '90 of 100 readings', 'First in', 'Plain mean']}
        rows={result.merit.map((one) => ({
          key: one.puppy,
          head: name(one.puppy),
          cells: [
            signed(one.estimate),
            `${signed(one.low)} to ${signed(one.high)}`,
            `${readings(one.ranks[0] ?? 0)} of 100`,
            one.mean === null ? 'not judged' : signed(one.mean),
          ],
        }))}
      />
      <RankTable caption={`Chance of each rank for a ${purpose}`} merit={result.merit} faces={faces} />
    </RecordSection>
  );
}
