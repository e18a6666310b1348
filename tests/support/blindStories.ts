import { checkKeys } from '#lib/sheet/check';
import {
  answerLook,
  comeLate,
  fillCard,
  holders,
  issueAnew,
  lock,
  markPicture,
  practise,
  speak,
  tell,
  type BlindDay,
  type DayKind,
  type Holder,
} from './blindDay';

/**
 * One stage of a day. While it is `blind`, what was said in this story is its holders' alone.
 */
export type BlindStage = { readonly name: string; readonly blind: boolean; act(day: BlindDay): Promise<void> };
export type Story = {
  readonly kind: DayKind;
  readonly holders: readonly Holder[];
  readonly stages: readonly BlindStage[];
};

const blind = (name: string, act: BlindStage['act']): BlindStage => ({ name, blind: true, act });
const told = (name: string, act: BlindStage['act']): BlindStage => ({
  name,
  blind: false,
  act: async (day) => {
    await act(day);
    tell(day);
  },
});

const present = ({ clients }: BlindDay) => holders.filter((holder) => clients.has(holder));
const begun: BlindStage = blind('preparing', async (day) => {
  day.begin();
  for (const holder of present(day)) await markPicture(day, holder);
});

/** Cards are filled and the assistant's seat is issued anew; its new device says something of its own. */
async function open(day: BlindDay): Promise<void> {
  await day.owner.api.evaluation.openRound.mutate({ id: day.id, unconfirmed: true });
  for (const holder of present(day)) await fillCard(day, holder);
  await issueAnew(day);
  await fillCard(day, 'assistant', 'scores');
  await markPicture(day, 'assistant');
}

const oneLocked = (day: BlindDay) => lock(day, 'mentor');

/** The photographer does not lock: the owner closes over that seat, and a note of hers comes too late. */
async function close(day: BlindDay): Promise<void> {
  for (const holder of ['co-owner', 'assistant', 'breeder'] as const) await lock(day, holder);
  await day.owner.api.evaluation.closeRound.mutate({ id: day.id });
}

async function reveal({ owner, id }: BlindDay): Promise<void> {
  await owner.api.evaluation.revealRound.mutate({ id });
}

/** Up to the reveal of the first round, the same in every world. */
async function settle(day: BlindDay): Promise<void> {
  await open(day);
  await oneLocked(day);
  await close(day);
  await reveal(day);
  tell(day);
  day.begin();
}

async function openSecond(day: BlindDay): Promise<void> {
  await settle(day);
  const { puppies, sheet } = await day.owner.api.evaluation.get.query({ id: day.id });
  const criterion = sheet.criteria.find((one) => !one.handsOnly && !one.twoSided)?.key ?? '';
  await day.owner.api.evaluation.openSecondRound.mutate({
    id: day.id,
    cells: puppies.map((puppy) => ({ puppyId: puppy.id, criterion })),
  });
  for (const holder of present(day)) {
    await fillCard(day, holder, 'scores');
    await markPicture(day, holder);
    await speak(day, holder);
  }
}

const openBatch = async ({ id, owner }: BlindDay): Promise<readonly [string, string]> => {
  const looks = await owner.api.look.list.query({ id });
  const look = looks.at(-1);
  return [look?.id ?? '', look?.batchId ?? ''];
};

async function openLooks(day: BlindDay): Promise<void> {
  await settle(day);
  const { puppies, slots } = await day.owner.api.evaluation.get.query({ id: day.id });
  const pairs = [{ firstPuppyId: puppies[0]?.id ?? '', secondPuppyId: puppies[1]?.id ?? '' }];
  await day.owner.api.look.open.mutate({ id: day.id, slotId: slots[0]?.id ?? '', medium: 'table', pairs });
  for (const holder of present(day)) {
    await markPicture(day, holder);
    await speak(day, holder);
  }
}

/** At the table, where the photographer is not asked; the mentor is awaited. */
async function answerAll(day: BlindDay): Promise<void> {
  const [lookId] = await openBatch(day);
  for (const holder of present(day).filter((one) => one !== 'mentor' && one !== 'photographer'))
    await answerLook(day, holder, lookId);
}

async function closeLooks(day: BlindDay): Promise<void> {
  const [, batchId] = await openBatch(day);
  await day.owner.api.look.close.mutate({ id: day.id, batchId });
}

async function decide({ id, owner }: BlindDay): Promise<void> {
  const board = await owner.api.board.get.query({ id });
  for (const { slotId, chances } of board.slots)
    await owner.api.decision.make.mutate({
      id,
      slotId,
      puppyId: chances[0]?.puppy ?? null,
      unexamined: [...checkKeys],
      reason: 'first of the panel',
      preference: false,
    });
}

const seal = async ({ id, owner }: BlindDay) => void (await owner.api.decision.seal.mutate({ id }));
const panel = { holders, kind: {} };

/** Every stage a day can be at, in five stories: in each world of one, what is said in it differs, and nothing before. */
export const stories: Readonly<Record<string, Story>> = {
  'a first round': {
    ...panel,
    stages: [
      {
        ...begun,
        act: async (day) => {
          await begun.act(day);
          await practise(day, 'mentor');
        },
      },
      blind('open', open),
      blind('one card locked', oneLocked),
      blind('closed', async (day) => {
        await close(day);
        await comeLate(day, 'photographer');
      }),
      told('revealed', reveal),
    ],
  },
  'a second round': { ...panel, stages: [blind('second round open', openSecond), blind('second round closed', close)] },
  'second looks': {
    ...panel,
    stages: [
      blind('looks open', openLooks),
      blind('looks answered by others', answerAll),
      told('looks closed', closeLooks),
      told('decided', decide),
      told('sealed', seal),
    ],
  },
  'a lesson': {
    kind: { lesson: true },
    holders: ['breeder', 'co-owner'],
    stages: [
      begun,
      blind('lesson open', async (day) => {
        await day.owner.api.evaluation.openRound.mutate({ id: day.id, unconfirmed: true });
        for (const holder of present(day)) await fillCard(day, holder);
      }),
      blind('learner locked', (day) => lock(day, 'breeder')),
      told('lesson revealed', (day) => lock(day, 'co-owner')),
    ],
  },
  'photographs by code': {
    holders,
    kind: { medium: 'photographs', plan: { identity: 'coded' } },
    stages: [
      blind('coded round open', async (day) => {
        day.begin();
        await open(day);
        await oneLocked(day);
      }),
      blind('coded round closed', close),
    ],
  },
};
