import { invariant } from '#lib/invariant';
import type { LikingPlaces, LikingSource } from '../merit/likingPlaces';
import type { LookAnswer, PurposeQuestion } from '../panel/panel';
import type { PanelDesign } from '../merit/panelDesign';

/** One answer, by position: of the purpose, the two puppies, and the answering seat's likings of them. */
export type PlannedLook = {
  readonly purpose: number;
  readonly first: number;
  readonly second: number;
  readonly firstLiking: number;
  readonly secondLiking: number;
  readonly choice: LookAnswer['choice'];
};

/** What joint draws have to hold beside the merits for second looks to be read from them. */
export type LookPlan = {
  readonly looks: readonly PlannedLook[];
  readonly likings: readonly LikingSource[];
  /** Extra standard normals one joint draw takes. */
  readonly extra: number;
};

export type LookPlanSource = {
  readonly purposes: readonly PurposeQuestion[];
  /** Where likings stand in the draws; likings it was asked for before are drawn too. */
  readonly places: LikingPlaces;
};

/** Looks in canonical order (their order must not matter), each distinct seat-puppy liking once. */
export function lookPlan(
  looks: readonly LookAnswer[],
  design: PanelDesign,
  { purposes, places }: LookPlanSource,
): LookPlan {
  const planned = inCanonicalOrder(
    looks.map((look) => oneWayRound(look, design)),
    design,
  ).map((look): PlannedLook => {
    const purpose = purposes.findIndex(({ key }) => key === look.purpose);
    invariant(purpose >= 0, `a second look names purpose ${look.purpose}, which the question does not have`);
    const [first, second] = [design.puppies.indexOf(look.first), design.puppies.indexOf(look.second)];
    invariant(first >= 0 && second >= 0, 'a second look names a puppy the panel does not have');
    const [firstLiking, secondLiking] = [places.placeOf(look.evaluator, first), places.placeOf(look.evaluator, second)];
    return { purpose, first, second, firstLiking, secondLiking, choice: look.choice };
  });
  return { looks: planned, likings: places.likings, extra: places.extra() };
}

/** The plan of a panel without second looks. */
export const noLooks: LookPlan = { looks: [], likings: [], extra: 0 };

/** A pair shown the other way round is the same look. */
function oneWayRound(look: LookAnswer, { puppies }: PanelDesign): LookAnswer {
  if (puppies.indexOf(look.first) <= puppies.indexOf(look.second)) return look;
  const choice = look.choice === 'tie' ? 'tie' : look.choice === 'first' ? 'second' : 'first';
  return { ...look, first: look.second, second: look.first, choice };
}

function inCanonicalOrder(looks: readonly LookAnswer[], design: PanelDesign): LookAnswer[] {
  const rank = (look: LookAnswer) => [
    design.seats.indexOf(look.evaluator),
    design.puppies.indexOf(look.first),
    design.puppies.indexOf(look.second),
  ];
  const name = (look: LookAnswer) => JSON.stringify([look.evaluator, look.purpose, look.choice]);
  return [...looks].sort((a, b) => {
    const [left, right] = [rank(a), rank(b)];
    const differs = left.findIndex((value, at) => value !== right[at]);
    if (differs >= 0) return (left[differs] ?? 0) - (right[differs] ?? 0);
    return name(a) < name(b) ? -1 : name(a) > name(b) ? 1 : 0;
  });
}
