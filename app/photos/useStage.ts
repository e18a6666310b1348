'use client';

import { useRef, type KeyboardEvent, type PointerEvent, type WheelEvent } from 'react';
import type { Point } from '#lib/photo/pinhole';
import type { PixelSize } from '#lib/photo/placing';
import { panBy, viewBoxOf, wholePicture, zoomBy, type StageView } from '#lib/photo/stageView';

type StageSetting = {
  readonly view: StageView;
  readonly onView: (view: StageView) => void;
  readonly size: PixelSize;
  readonly mirrored: boolean;
  /** A tap, or a press without moving, at a place of the picture. */
  readonly onTap?: ((at: Point) => void) | undefined;
  /** Takes a key before the stage does; true when it was for it. */
  readonly onKey?: ((event: KeyboardEvent) => boolean) | undefined;
};

type Finger = { readonly x: number; readonly y: number };
/** The view is carried along here: two fingers move more often than the screen is drawn. */
type Gesture = { fingers: Map<number, Finger>; moved: boolean; start: Finger; view: StageView };

const tapSlack = 8;
const keyPan: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -0.15, y: 0 },
  ArrowRight: { x: 0.15, y: 0 },
  ArrowUp: { x: 0, y: -0.15 },
  ArrowDown: { x: 0, y: 0.15 },
};

/** Pinch, pan, wheel and keys of one stage. Every gesture has its key. */
export function useStage(setting: StageSetting) {
  const gesture = useRef<Gesture>({ fingers: new Map(), moved: false, start: { x: 0, y: 0 }, view: wholePicture });
  const down = (event: PointerEvent<SVGSVGElement>) => {
    const now = gesture.current;
    event.currentTarget.setPointerCapture(event.pointerId);
    now.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (now.fingers.size > 1) now.moved = true;
    else Object.assign(now, { moved: false, start: { x: event.clientX, y: event.clientY }, view: setting.view });
  };
  const move = (event: PointerEvent<SVGSVGElement>) => {
    const { fingers, start } = gesture.current;
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const after = { x: event.clientX, y: event.clientY };
    if (Math.hypot(after.x - start.x, after.y - start.y) > tapSlack) gesture.current.moved = true;
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    fingers.set(event.pointerId, after);
    if (!gesture.current.moved) return;
    gesture.current.view = moved(
      event.currentTarget,
      { ...setting, view: gesture.current.view },
      { before, after, other },
    );
    setting.onView(gesture.current.view);
  };
  const up = (event: PointerEvent<SVGSVGElement>) => {
    const { fingers, moved: dragged } = gesture.current;
    if (!fingers.delete(event.pointerId) || dragged || fingers.size > 0) return;
    const at = placeAt(event.currentTarget, event, setting);
    setting.onTap?.(setting.mirrored ? { x: 1 - at.x, y: at.y } : at);
  };
  return {
    onPointerDown: down,
    onPointerMove: move,
    onPointerUp: up,
    onPointerCancel: (event: PointerEvent<SVGSVGElement>) => void gesture.current.fingers.delete(event.pointerId),
    onWheel: (event: WheelEvent<SVGSVGElement>) => {
      if (event.ctrlKey || setting.view.zoom > 1)
        setting.onView(
          zoomBy(setting.view, Math.exp(-event.deltaY / 400), placeAt(event.currentTarget, event, setting)),
        );
    },
    onKeyDown: (event: KeyboardEvent<SVGSVGElement>) => {
      if (event.altKey || event.ctrlKey || event.metaKey) return;
      const next = setting.onKey?.(event) ? setting.view : keyed(setting, event.key);
      if (!next) return;
      event.preventDefault();
      setting.onView(next);
    },
  };
}

function keyed({ view }: StageSetting, key: string): StageView | null {
  if (key === '+' || key === '=') return zoomBy(view, 1.4);
  if (key === '-' || key === '−') return zoomBy(view, 1 / 1.4);
  if (key === '0') return wholePicture;
  const pan = keyPan[key];
  return pan ? panBy(view, pan) : null;
}

/** Where in the picture as it is shown a place of the screen is, in shares. The picture is fitted into its stage and centred. */
function placeAt(
  stage: SVGSVGElement,
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
  { view, size }: StageSetting,
): Point {
  const { scale, left, top } = fit(stage, { view, size });
  const box = viewBoxOf(view, size);
  const x = (box[0] + (clientX - left) / scale) / size.width;
  const held = (value: number) => Math.min(1, Math.max(0, value));
  return { x: held(x), y: held((box[1] + (clientY - top) / scale) / size.height) };
}

function fit(
  stage: SVGSVGElement,
  { view, size }: Pick<StageSetting, 'view' | 'size'>,
): { readonly scale: number; readonly left: number; readonly top: number } {
  const place = stage.getBoundingClientRect();
  const [, , width, height] = viewBoxOf(view, size);
  const scale = Math.min(place.width / width, place.height / height);
  return {
    scale,
    left: place.left + (place.width - width * scale) / 2,
    top: place.top + (place.height - height * scale) / 2,
  };
}

type Moved = { readonly before: Finger; readonly after: Finger; readonly other: Finger | undefined };

function moved(stage: SVGSVGElement, setting: StageSetting, { before, after, other }: Moved): StageView {
  const { view, size } = setting;
  const { scale } = fit(stage, setting);
  const [, , width, height] = viewBoxOf(view, size);
  const pull = other ? 0.5 : 1;
  const panned = panBy(view, {
    x: (-(after.x - before.x) * pull) / (width * scale),
    y: (-(after.y - before.y) * pull) / (height * scale),
  });
  if (!other) return panned;
  const apart = (finger: Finger) => Math.max(1, Math.hypot(finger.x - other.x, finger.y - other.y));
  const between = { clientX: (after.x + other.x) / 2, clientY: (after.y + other.y) / 2 };
  return zoomBy(panned, apart(after) / apart(before), placeAt(stage, between, { ...setting, view: panned }));
}
