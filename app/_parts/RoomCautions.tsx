import { cautions, roomCautions } from '#lib/sheet/cautions';

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
