import type { SeatFace } from '#lib/contract/evaluationView';
import type { PhotoFace, Pointer } from '#lib/contract/photo';
import type { StageView } from '#lib/photo/stageView';
import { PointerMark } from './PointerMark';
import styles from './photos.module.css';
import { Stage } from './Stage';

type Props = {
  readonly name: string;
  readonly shotName: string;
  readonly photo: PhotoFace | undefined;
  readonly view: StageView;
  readonly onView: (view: StageView) => void;
  readonly mirrored: boolean;
  readonly guides: boolean;
  readonly pointers: readonly Pointer[];
  readonly seats: readonly SeatFace[];
  /** The viewer's own seat: its marks carry no name. */
  readonly own: string | null;
};

/** One puppy's picture with its name and what was pointed at. */
export function SidePicture({ name, shotName, photo, view, onView, mirrored, guides, pointers, seats, own }: Props) {
  return (
    <figure className="stack upright gap-4">
      {photo ? (
        <Stage
          photo={photo}
          label={`${name}, ${shotName}`}
          view={view}
          onView={onView}
          mirrored={mirrored}
          guides={guides}
        >
          {pointers
            .filter((pointer) => pointer.photoId === photo.id)
            .map((pointer) => (
              <PointerMark
                blind={pointer.blind}
                key={pointer.id}
                pointer={pointer}
                size={photo}
                zoom={view.zoom}
                mirrored={mirrored}
                by={pointer.seat === own ? '' : (seats.find((seat) => seat.id === pointer.seat)?.label ?? 'a seat')}
              />
            ))}
        </Stage>
      ) : (
        <p className={styles.none}>No picture of this view.</p>
      )}
      <figcaption>
        <b>{name}</b> · {shotName}
        {photo && !photo.fair ? <span className="small"> · said to be no fair picture</span> : null}
      </figcaption>
    </figure>
  );
}
