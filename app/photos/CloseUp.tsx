'use client';

import { useState } from 'react';
import type { PhotoFace, PhotoList } from '#lib/contract/photo';
import { measurableShots, shots } from '#lib/photo/shot';
import { wholePicture } from '#lib/photo/stageView';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { FieldTick } from '../_parts/FieldTick';
import { MeasureTool } from './MeasureTool';
import { PointTool } from './PointTool';
import { PointerMark } from './PointerMark';
import { Stage } from './Stage';
import styles from './photos.module.css';
import { seatWords, type ToolProps, useMarks } from './useMarks';

type Props = { readonly list: PhotoList; readonly photo: PhotoFace; readonly onBack: () => void };

type Tool = 'look' | 'point' | 'measure';

/** One picture, large: to look at, to point at a place, to measure one ratio. */
export function CloseUp({ photo, onBack }: Props) {
  const evaluation = useEvaluation();
  const [tool, take] = useState<Tool>('look');
  const [view, setView] = useState(wholePicture);
  const [mirrored, mirror] = useState(false);
  const [guides, guide] = useState(false);
  const marks = useMarks(evaluation.id);
  const name = evaluation.puppies.find((puppy) => puppy.id === photo.puppyId)?.name ?? 'a puppy';
  const seat = evaluation.seats.find((one) => one.id === evaluation.viewer.seatId);
  const mayMark = seat !== undefined && seat.kind !== 'none' && evaluation.phase !== 'sealed';
  const tools: readonly (readonly [Tool, string, boolean])[] = [
    ['look', 'Look', true],
    ['point', 'Point at a place', mayMark],
    ['measure', 'Measure a ratio', mayMark && measurableShots.includes(photo.view)],
  ];
  const label = `${name}, ${shots[photo.view].name}`;
  const props = { photo, label, stage: { view, onView: setView, mirrored, guides }, marks };
  return (
    <section className="stack gap-12" aria-label={label}>
      <div className={`wrap centred ${styles.head}`}>
        <Button onClick={onBack}>Back to the pictures</Button>
        <h2>{label}</h2>
      </div>
      <div className={`wrap centred ${styles.bar}`}>
        <div role="group" aria-label="What to do with this picture" className={`wrap centred ${styles.tools}`}>
          {tools
            .filter(([, , may]) => may)
            .map(([key, words]) => (
              <Button
                key={key}
                tone={key === tool ? 'main' : 'plain'}
                aria-pressed={key === tool}
                onClick={() => take(key)}
              >
                {words}
              </Button>
            ))}
        </div>
        <FieldTick label="Level and upright lines" ticked={guides} onChange={guide} />
        <FieldTick label="Mirror" ticked={mirrored} onChange={mirror} />
      </div>
      {tool === 'look' ? <LookTool {...props} /> : null}
      {tool === 'point' ? <PointTool {...props} /> : null}
      {tool === 'measure' ? <MeasureTool {...props} /> : null}
    </section>
  );
}

/** The picture with what was pointed at on it. */
function LookTool({ photo, label, stage, marks }: ToolProps) {
  const evaluation = useEvaluation();
  return (
    <Stage photo={photo} label={label} {...stage}>
      {marks.pointers
        .filter((pointer) => pointer.photoId === photo.id)
        .map((pointer) => (
          <PointerMark
            key={pointer.id}
            pointer={pointer}
            blind={pointer.blind}
            size={photo}
            zoom={stage.view.zoom}
            mirrored={stage.mirrored}
            by={seatWords(evaluation, pointer.seat)}
          />
        ))}
    </Stage>
  );
}
