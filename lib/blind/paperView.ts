import type { PaperSheet, PaperView } from '../contract/paper';
import type { EvaluationFacts, SeatFacts, Viewer } from '../evaluation/facts';
import { askedFields, sheetCodes, sheetShowings } from '../evaluation/paper';
import { asSeatSees } from './evaluationView';

type Beside = {
  /** The chip's last digits by puppy. */
  readonly chips: ReadonlyMap<string, string>;
  /** What the owner typed in the newest round, oldest first. */
  readonly typed: readonly {
    readonly seatId: string;
    readonly showingId: string;
    readonly at: number;
    readonly answers: number;
  }[];
};

/**
 * The sheets a viewer may print: her own seat's, and to the owner those of seats on paper, each in that seat's own order, which holds no score. Of
 * what was typed it tells that it was, never what (BL1); built field by field (BL2).
 */
export function paperView(facts: EvaluationFacts, viewer: Viewer, beside: Beside): PaperView {
  const printed = facts.seats.filter(
    (seat) => seat.kind !== 'none' && (seat.id === viewer.seatId || (viewer.owner && seat.paper)),
  );
  return {
    seats: printed.map((seat) => ({
      id: seat.id,
      label: seat.label,
      position: seat.position,
      kind: seat.kind,
      onPaper: seat.paper,
      locked: seat.lockedAt !== null,
      sheets: sheetsOf(facts, seat, viewer.owner ? beside : { ...beside, typed: [] }),
    })),
  };
}

function sheetsOf(facts: EvaluationFacts, seat: SeatFacts, { chips, typed }: Beside): PaperSheet[] {
  const { puppies, round, coded } = asSeatSees(facts, seat);
  if (!round || round.state === 'revealed') return [];
  const codes = sheetCodes(round, seat.id);
  return sheetShowings(facts.puppies, round.showings).flatMap((showing) => {
    const puppy = puppies.find((one) => one.id === showing.puppyId);
    if (!puppy) return [];
    const last = typed.findLast((card) => card.seatId === seat.id && card.showingId === showing.id);
    return [
      {
        showingId: showing.id,
        code: codes.get(showing.id) ?? '',
        puppy,
        chipDigits: coded ? '' : (chips.get(puppy.id) ?? ''),
        asked: askedFields({ sheet: facts.sheet, cells: round.cells, kind: seat.kind, puppy }).length,
        typed: last ? { at: last.at, answers: last.answers } : null,
      },
    ];
  });
}

/** A line of the record about paper as an anonymous panel reads it: that a card came on paper, not whose. */
export function withoutPaperSeat<Line extends { readonly kind: string; readonly detail: string }>(line: Line): Line {
  return line.kind === 'card-typed' || line.kind === 'paper-locked'
    ? { ...line, detail: line.detail.replace(/^.*?(?=( \[typed [0-9a-f]{64}\])?$)/, 'a seat') }
    : line;
}
