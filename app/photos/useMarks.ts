'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { PhotoFace } from '#lib/contract/photo';
import type { StageView } from '#lib/photo/stageView';
import { useTRPC } from '../_data/trpc';
import { holding } from '../_evaluation/isRescoring';

/** What every tool of the close-up works with. */
export type ToolProps = {
  readonly photo: PhotoFace;
  readonly label: string;
  readonly stage: {
    readonly view: StageView;
    readonly onView: (view: StageView) => void;
    readonly mirrored: boolean;
    readonly guides: boolean;
  };
  readonly marks: ReturnType<typeof useMarks>;
};

/** Everything pointed at and measured on the pictures of an evaluation, as far as this seat may see it. */
export function useMarks(id: string) {
  const trpc = useTRPC();
  const marks = useQuery(trpc.photo.marks.queryOptions({ id }));
  return marks.data ?? { pointers: [], measurements: [] };
}

/** A seat by its label; nothing for one's own. */
export function seatWords({ seats, viewer }: Pick<EvaluationView, 'seats' | 'viewer'>, seatId: string): string {
  return seatId === viewer.seatId ? '' : (seats.find((seat) => seat.id === seatId)?.label ?? 'a seat');
}

/** Whose affair one's own marks or readings are for now; null where everybody sees them at once. */
export function heldWords(evaluation: EvaluationView, what: 'marks' | 'readings'): string | null {
  const open = holding(evaluation);
  if (open !== null) return `A ${open} is open. The ${what} you make meanwhile are yours alone until it is revealed.`;
  return evaluation.round?.state === 'revealed' ? null : `Your ${what} are yours alone until the reveal.`;
}
