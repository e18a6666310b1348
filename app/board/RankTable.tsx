import { DataTable } from './DataTable';
import type { Faces } from './facesOf';
import type { PurposeResult } from './MeritSection';
import { tableReadings } from './tableReadings';

type RankTableProps = { readonly caption: string; readonly merit: PurposeResult['merit']; readonly faces: Faces };

/** How often each puppy comes first, second and so on, in readings of 100. */
export function RankTable({ caption, merit, faces }: RankTableProps) {
  return (
    <DataTable
      figures
      caption={`${caption}, in readings of 100`}
      heads={['Puppy', ...merit.map((_, at) => `${at + 1}`)]}
      rows={merit.map((one) => ({ key: one.puppy, head: faces.puppyName(one.puppy), cells: one.ranks.map(tableReadings) }))}
    />
  );
}
