import { ButtonLink } from '../_parts/ButtonLink';
import { isRescoring } from '../_parts/isRescoring';
import { openCloseCalls } from './openCloseCalls';
import type { PlaceProps } from './PlaceCard';

/** Where an open close call goes on: to second looks while there are some left, else to a decision on the owner's declared preference. */
export function LookWay({ slot, evaluation, revealed, faces }: PlaceProps) {
  const { verdict, used, agreed } = slot.looks;
  const place = faces.place(slot.slotId);
  const isFirst = openCloseCalls(revealed)[0]?.slotId === slot.slotId;
  const tone = isFirst ? 'main' : 'plain';
  if (evaluation.phase !== 'deciding') return null;
  if (verdict === 'equalOnStructure') {
    return (
      <>
        {used > 0 ? <p className="small figures">{`${used} of ${agreed} agreed batches of second looks used.`}</p> : null}
        <div>
          <ButtonLink tone={tone} href={`/decide?id=${evaluation.id}`}>
            Equal on structure: decide place {place} by preference
          </ButtonLink>
        </div>
      </>
    );
  }
  if (!evaluation.viewer.leads || isRescoring(evaluation) || revealed.looks.some((look) => look.state !== 'revealed')) return null;
  return (
    <div>
      <ButtonLink tone={tone} href={`/look?id=${evaluation.id}&slot=${slot.slotId}`}>
        {used === 0 ? 'Prepare second looks' : `Prepare batch ${used + 1} of ${agreed}`} for place {place}
      </ButtonLink>
    </div>
  );
}
