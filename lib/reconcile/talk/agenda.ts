import { drawColumn } from '../merit/drawEstimate';
import type { Flag } from '../merit/reconciliation';
import type { FoldedDraws } from '../looks/lookedDraws';
import type { BesideScores, SlotQuestion } from '../panel/panel';
import type { PanelDesign } from '../merit/panelDesign';
import { bestOfGain, quantityGain, standardScores, type Choice } from '../looks/partialInformation';
import { bestChances, type WeightedMerits } from '../merit/rankChances';
import type { AgendaItem, SlotResult } from '../merit/reconciliation';

/** What the agenda is read from. */
export type AgendaSource = {
  readonly design: PanelDesign;
  readonly folded: FoldedDraws;
  /** Cells kept in the draws, as criterion × puppies + puppy. */
  readonly watched: readonly number[];
  readonly byPurpose: ReadonlyMap<string, WeightedMerits>;
  /** As asked, and what was found, in the same order. */
  readonly slots: readonly SlotQuestion[];
  readonly results: readonly SlotResult[];
  readonly beside: BesideScores;
};

export type AgendaSettings = {
  readonly most: number;
  /** A gain below this is not worth the panel's time. */
  readonly leastGain: number;
};

const agendaSettings: AgendaSettings = { most: 5, leastGain: 0.01 };

/** Puppies less likely than this to be the right pick are left out of the sums: what they could add is smaller still, and they cost time. */
const LEAST_CHANCE = 0.01;

/** An open slot: what it chooses among, and the chance of being right today. */
type OpenSlot = { readonly result: SlotResult; readonly choice: Choice; readonly now: number };

/**
 * The flags worth talking about, by how much settling each could raise the chance of a right pick: its expected value of partial perfect
 * information, for the open slot it helps most. What "settled" means by kind: a close call, which of its two likeliest puppies is the better, the
 * question one second look asks (never who is best of all candidates, which no one question settles); a split on a puppy, its overall quality behind the likings; a cell, the panel's quality there; an odd evaluator, its severity or the SD of its likings or
 * noise; a check, whether it holds the puppy.
 */
export function agenda(
  flags: readonly Flag[],
  source: AgendaSource,
  settings: AgendaSettings = agendaSettings,
): AgendaItem[] {
  const open = openSlots(source);
  return flags
    .flatMap((flag): AgendaItem[] => {
      const gainFor = gainOf(flag, source);
      const [best] = open
        .map((slot) => ({ slot: slot.result.key, now: slot.now, gain: gainFor(slot) }))
        .sort((a, b) => b.gain - a.gain);
      if (!best) return [];
      const rivals = flag.kind === 'closeCall' ? rivalsOf(source.results.find(({ key }) => key === flag.slot)) : null;
      return [
        {
          flag,
          ...(rivals && { between: rivals }),
          slot: best.slot,
          now: best.now,
          settled: Math.min(1, best.now + best.gain),
          gain: best.gain,
        },
      ];
    })
    .filter(({ gain }) => gain >= settings.leastGain)
    .sort((a, b) => b.gain - a.gain)
    .slice(0, settings.most);
}

function openSlots({ design, byPurpose, slots, results }: AgendaSource): OpenSlot[] {
  return results.flatMap((result, at): OpenSlot[] => {
    const merits = byPurpose.get(result.purpose);
    const [first] = result.chances;
    if (!merits || !first || slots[at]?.picked !== null) return [];
    const able = result.chances
      .filter(({ probability }) => probability >= LEAST_CHANCE)
      .map(({ puppy }) => design.puppies.indexOf(puppy));
    return [{ result, choice: { ...merits, eligible: able }, now: first.probability }];
  });
}

function gainOf(flag: Flag, source: AgendaSource): (open: OpenSlot) => number {
  if (flag.kind === 'closeCall') return (open) => closeCallGain(flag.slot, open, source);
  if (flag.kind === 'splitCheck') return (open) => checkGain(flag, open, source);
  const score = standardScores(resolvedQuantity(flag, source), source.folded.weights);
  return ({ choice }) => quantityGain(choice, score);
}

function closeCallGain(slot: string, { result, choice }: OpenSlot, { design }: AgendaSource): number {
  const rivals = result.key === slot ? rivalsOf(result) : null;
  return rivals === null
    ? 0
    : bestOfGain(
        choice,
        rivals.map((puppy) => design.puppies.indexOf(puppy)),
      );
}

/** The two likeliest puppies of a slot. */
function rivalsOf(result: SlotResult | undefined): readonly [string, string] | null {
  const [first, second] = result?.chances ?? [];
  return first && second ? [first.puppy, second.puppy] : null;
}

/** The draws of what talking would settle. */
function resolvedQuantity(
  flag: Exclude<Flag, { kind: 'closeCall' | 'splitCheck' }>,
  { design, folded, watched }: AgendaSource,
): Float64Array {
  const { draws } = folded;
  const puppies = design.puppies.length;
  if (flag.kind === 'oddEvaluator')
    return drawColumn(draws[flag.by], design.seats.length, design.seats.indexOf(flag.evaluator));
  const puppy = design.puppies.indexOf(flag.puppy);
  if (flag.kind === 'splitOnPuppy') return drawColumn(draws.general, puppies, puppy);
  const criterion = design.criteria.findIndex(({ key }) => key === flag.criterion);
  return drawColumn(draws.cells, watched.length, watched.indexOf(criterion * puppies + puppy));
}

/**
 * A split check that holds the puppy: learning whether it does decides whether the puppy may be picked. The chance that it does is taken from
 * the answers, (k + 1) / (n + 2) for k of n seats that found other than normal (Laplace's rule of succession).
 */
function checkGain(
  flag: Extract<Flag, { kind: 'splitCheck' }>,
  { result, choice }: OpenSlot,
  source: AgendaSource,
): number {
  const { design, beside, results } = source;
  const stake = beside.stakes.find(
    ({ puppy, check, slots }) => puppy === flag.puppy && check === flag.check && slots.includes(result.key),
  );
  const puppy = design.puppies.indexOf(flag.puppy);
  if (!stake || puppy < 0 || results.some((other) => other.key !== result.key && other.filledBy === flag.puppy))
    return 0;
  const answers = beside.checks.filter((one) => one.puppy === flag.puppy && one.check === flag.check);
  const held = (answers.filter(({ finding }) => finding !== 'normal').length + 1) / (answers.length + 2);
  const others = result.chances.map((one) => design.puppies.indexOf(one.puppy)).filter((one) => one !== puppy);
  const ifFree = bestChances(choice, [...others, puppy]).map((chance) => (1 - held) * chance);
  const ifHeld = bestChances(choice, others).map((chance) => held * chance);
  const blind = ifFree.map((chance, at) => chance + (ifHeld[at] ?? 0));
  return Math.max(0, Math.max(0, ...ifHeld) + Math.max(...ifFree) - Math.max(...blind));
}
