'use client';

import { useEffect, useRef, useState } from 'react';
import type { PuppyFace, Showing } from '#lib/contract/evaluationView';
import { forgetLeft, goTo, hearTable, isInMidst, isUnsure, startFollowing } from '#lib/evaluation/followTable';
import { saysSomething } from '#lib/evaluation/ownAnswers';
import { firstOpen, missingSteps, stepsOf } from './steps';
import type { RoundView, Scoring } from './useScoring';

export type Face = { readonly showing: Showing; readonly puppy: PuppyFace };

export type Shown = Face & {
  /** From 0, in this seat's order. */
  readonly index: number;
  /** The puppy on the table now; null in a photograph round. */
  readonly table: Face | null;
  /** The puppy that was left when the table moved on; null once seen to. */
  readonly left: Face | null;
  /** The puppy shown before, where a move of the table and not the person brought this one. */
  readonly broughtFrom: Face | null;
  /** Whether a press whose finger came down then may have been meant for the puppy before. */
  readonly isUnsure: (downAt: number) => boolean;
  readonly go: (showingId: string) => void;
  readonly forgetLeft: () => void;
  /** Where the person is within each puppy's questions, by showing. */
  readonly places: ReadonlyMap<string, number>;
  /** Null lets it open at the first open question. */
  readonly setPlace: (showingId: string, place: number | null) => void;
};

type Ahead = { readonly table: string | null; readonly link: string | null; readonly round: RoundView };

/**
 * Which puppy this device shows. At a table it follows the table, at once on the doorbell and ahead of the refetch, by the
 * rules of `followTable`. In a photograph round there is no table.
 */
export function useShowing(scoring: Scoring): Shown | null {
  const { round, link } = scoring;
  const tableId = useTable(round, link.table);
  const [following, setFollowing] = useState(() => startFollowing(tableId, round.showings[0]?.id ?? null));
  const [places, setPlaces] = useState<ReadonlyMap<string, number>>(new Map());
  const held = useHeld(round.medium === 'table');
  const current = faceOf(scoring, following.shown);
  const heard = hearTable(following, tableId, {
    held,
    midst: current !== null && isBusyWith(scoring, current, places),
  });
  if (heard !== following) setFollowing(heard);
  const setPlace = (id: string, place: number | null) =>
    setPlaces(
      (before) => new Map([...before].filter(([one]) => one !== id).concat(place === null ? [] : [[id, place]])),
    );
  // The place is pinned at first sight: an answer must not move the question away under the thumb.
  if (current && scoring.ready && !places.has(current.showing.id))
    setPlace(current.showing.id, firstOpen(stepsOf(scoring, current.puppy), current.showing.id, scoring.answers));
  const seen = useRef<{ readonly shown: string | null; readonly at: number }>({ shown: null, at: 0 });
  useEffect(() => {
    seen.current = { shown: following.shown, at: performance.now() };
  }, [following.shown]);
  if (!current) return null;
  const left = faceOf(scoring, following.left);
  return {
    ...current,
    index: round.showings.findIndex((one) => one.id === current.showing.id),
    table: faceOf(scoring, tableId),
    left: left && left.showing.id !== current.showing.id ? left : null,
    broughtFrom: faceOf(scoring, following.broughtFrom),
    isUnsure: (downAt) => isUnsure(following, seen.current.shown === following.shown ? seen.current.at : null, downAt),
    go: (id) => setFollowing((before) => goTo(before, id)),
    forgetLeft: () => setFollowing(forgetLeft),
    places,
    setPlace,
  };
}

function isBusyWith(scoring: Scoring, { showing, puppy }: Face, places: ReadonlyMap<string, number>): boolean {
  const { answers } = scoring;
  const steps = stepsOf(scoring, puppy);
  const said = [...answers].some(
    ([register, { body }]) => register.startsWith(`${showing.id} `) && saysSomething(body),
  );
  return isInMidst({
    said,
    missing: missingSteps(steps, showing.id, answers).length,
    place: places.get(showing.id) ?? 0,
    steps: steps.length,
  });
}

/** What the last doorbell named, until a read made after it says more. */
function useTable(round: RoundView, rung: string | null): string | null {
  const [ahead, setAhead] = useState<Ahead>({ table: null, link: rung, round });
  if (rung !== ahead.link) setAhead({ table: rung, link: rung, round });
  else if (round !== ahead.round && ahead.table !== null) setAhead({ table: null, link: rung, round });
  if (round.medium !== 'table') return null;
  return ahead.table ?? round.tableShowingId;
}

/** A showing with its puppy. */
export function faceOf({ round, evaluation }: Pick<Scoring, 'round' | 'evaluation'>, id: string | null): Face | null {
  const showing = round.showings.find((one) => one.id === id);
  const puppy = evaluation.puppies.find((one) => one.id === showing?.puppyId);
  return showing && puppy ? { showing, puppy } : null;
}

/** A click comes right after its finger has gone; a browser that is busy may take this long. */
const clickWithinMs = 300;
/** Beside the ids of pointers, which are not negative. */
const spaceBar = -1;

/** True while something of this page is in use that must not change under the hand: a finger is down, a drawer is open, words are being typed. */
function useHeld(active: boolean): boolean {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    if (!active) return;
    const fingers = new Set<number>();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = () => setHeld(fingers.size > 0 || inUse());
    const lookIn = (ms: number) => {
      clearTimeout(timer);
      timer = setTimeout(look, ms);
    };
    const down = (event: PointerEvent) => {
      // A further button of a mouse that is down already sends no pointerup of its own.
      if (event.button !== 0) return;
      clearTimeout(timer);
      fingers.add(event.pointerId);
      look();
    };
    const up = (event: PointerEvent) => {
      fingers.delete(event.pointerId);
      lookIn(clickWithinMs);
    };
    /** A mouse let go outside the window. */
    const moved = (event: PointerEvent) => {
      if (event.buttons === 0 && fingers.delete(event.pointerId)) lookIn(clickWithinMs);
    };
    /** The space bar presses when it is let go. */
    const keyDown = (event: KeyboardEvent) => {
      if (event.key !== ' ' || event.repeat) return;
      fingers.add(spaceBar);
      look();
    };
    const keyUp = (event: KeyboardEvent) => {
      if (event.key === ' ') fingers.delete(spaceBar);
      soon();
    };
    const soon = () => {
      if (fingers.size === 0) lookIn(0);
    };
    const gone = () => {
      fingers.clear();
      lookIn(0);
    };
    const over = new AbortController();
    const onPage = { signal: over.signal, capture: true };
    document.addEventListener('pointerdown', down, onPage);
    for (const kind of ['pointerup', 'pointercancel'] as const) document.addEventListener(kind, up, onPage);
    document.addEventListener('pointermove', moved, onPage);
    document.addEventListener('keydown', keyDown, onPage);
    document.addEventListener('keyup', keyUp, onPage);
    for (const kind of ['click', 'focusin', 'focusout']) document.addEventListener(kind, soon, onPage);
    document.addEventListener('visibilitychange', gone, onPage);
    window.addEventListener('blur', gone, { signal: over.signal });
    return () => {
      over.abort();
      clearTimeout(timer);
    };
  }, [active]);
  return active && held;
}

/** Anything over the page, or a field one is writing in. */
function inUse(): boolean {
  const focus = document.activeElement;
  return (
    document.querySelector('dialog[open]') !== null ||
    (focus !== null && focus.matches('textarea, select, input:not([type=radio], [type=checkbox])'))
  );
}
