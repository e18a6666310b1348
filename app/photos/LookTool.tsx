import { Stage } from './Stage';
import type { ToolProps } from './CloseUp';
import { PointerMark } from './PointerMark';
import { seatWords } from './seatWords';

/** The picture with what was pointed at on it. */
export function LookTool({ evaluation, photo, label, stage, marks }: ToolProps) {
  return (
    <Stage photo={photo} label={label} {...stage}>
      {marks.pointers
        .filter((pointer) => pointer.photoId === photo.id)
        .map((pointer) => (
          <PointerMark key={pointer.id} pointer={pointer} blind={pointer.blind} size={photo} zoom={stage.view.zoom} mirrored={stage.mirrored} by={seatWords(evaluation, pointer.seat)} />
        ))}
    </Stage>
  );
}
