import { getEvaluationFacts } from '#db/queries/evaluations';
import { demoRoleSchema, type DemoRole } from '#lib/contract/demoView';
import { usualPlan } from '#lib/contract/plan';
import type { Purpose } from '#lib/contract/setup';
import { invariant } from '#lib/invariant';
import type { Sheet } from '#lib/sheet/sheet';
import { confirmPickOrder, savePanelSeat } from '../commands/seats';
import { builtInSheetIds, createEvaluation, saveSetup } from '../commands/setup';
import type { Runtime } from '../runtime';
import type { Asker } from '../write/writeEvaluation';
import type { Scenario, ScenarioDay } from './scenario';

export type DayPlan = {
  readonly scenario: Scenario;
  readonly day: ScenarioDay;
  readonly litterId: string;
  readonly heldOn: string;
};
export type PreparedDay = {
  readonly id: string;
  readonly seats: Readonly<Record<DemoRole, string>>;
  readonly sheet: Sheet;
};

/** A hand of the script in one seat, without a session of its own; the owner's where none is named. */
export function handOf(runtime: Runtime, seat: { readonly id: string; readonly owner: boolean } | null = null): Asker {
  return {
    runtime,
    device: { id: '', owner: seat?.owner ?? true, seatId: seat === null || seat.owner ? null : seat.id },
  };
}

/** Creates one evaluation of the scenario with its panel, purposes, pick order and order of showing. */
export function prepareDay(runtime: Runtime, { scenario, day, litterId, heldOn }: DayPlan): PreparedDay {
  const sheetId = builtInSheetIds[day.sheet];
  const input = {
    name: day.name,
    heldOn,
    medium: 'table',
    callLink: '',
    callNumber: '',
    tableNote: day.tableNote,
  } as const;
  const id = createEvaluation(runtime, { litterId, sheetId, input });
  const seats = seatPanel(runtime, id, scenario);
  const { puppies, sheet } = getEvaluationFacts(runtime.db, id);
  const slots = scenario.slots.map(({ role, ...slot }) => ({ ...slot, seatId: role && seats[role] }));
  const order = day.order.map((name) => puppies.find((puppy) => puppy.name === name)?.id ?? '');
  saveSetup(handOf(runtime), id, {
    input,
    sheetId,
    purposes: purposesOf(scenario, sheet),
    slots,
    order,
    plan: usualPlan,
  });
  for (const { role, picks } of scenario.seats)
    if (picks && role !== 'breeder') confirmPickOrder(handOf(runtime, { id: seats[role], owner: false }), id);
  return { id, seats, sheet };
}

/** The owner's seat is there from the start; the others are added. */
function seatPanel(runtime: Runtime, evaluationId: string, scenario: Scenario): Record<DemoRole, string> {
  const own = getEvaluationFacts(runtime.db, evaluationId).seats.find((seat) => seat.owner);
  const ids = scenario.seats.map(({ role, kind, leads, picks, interest }) => {
    const seatId = role === 'breeder' ? (own?.id ?? null) : null;
    return [
      role,
      savePanelSeat(handOf(runtime), { evaluationId, seatId, input: { label: role, kind, leads, picks, interest } }),
    ] as const;
  });
  const byRole = new Map(ids);
  const seatOf = (role: DemoRole) => {
    const id = byRole.get(role);
    invariant(id, `the scenario has no ${role}`);
    return id;
  };
  const [breeder, mentor, photographer, coOwner] = demoRoleSchema.options.map(seatOf);
  invariant(breeder && mentor && photographer && coOwner, 'the scenario lacks a seat');
  return { breeder, mentor, photographer, 'co-owner': coOwner };
}

function purposesOf({ weights }: Scenario, sheet: Sheet): Purpose[] {
  return (['keep', 'working'] as const).map((key) => ({
    key,
    weights: Object.fromEntries(sheet.criteria.map((criterion) => [criterion.key, weights[key][criterion.key] ?? 1])),
  }));
}
