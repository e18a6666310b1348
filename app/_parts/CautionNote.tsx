import { type CautionKey, cautions, roomCautions } from '#lib/sheet/cautions';

/** One caution in the sheet's own words, where it matters. */
export function CautionNote({ caution }: { readonly caution: CautionKey }) {
  const { title, text } = cautions[caution];
  return (
    <div role="note" className="warned text slim">
      <p className="strong tone-note">{title}</p>
      <p>{text}</p>
    </div>
  );
}

/** What everyone in the room with the puppies keeps to, in a few lines. */
export function RoomCautions() {
  return (
    <ul className="list stack gap-6" aria-label="For everyone in the room">
      {roomCautions.map((key) => (
        <li key={key}>
          <b>{cautions[key].title}.</b> {cautions[key].text}
        </li>
      ))}
    </ul>
  );
}
