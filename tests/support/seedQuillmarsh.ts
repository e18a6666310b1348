import type { SeatInput } from '#lib/contract/setup';
import { builtInSheetIds } from '#server/commands/setup';
import { testClient, type TestClient } from './testClient';

/** Invented: the puppies of the tests' litter. */
export const quillmarshPuppies = [
  { name: 'Fern', sex: 'bitch', collar: 'blue', secondMark: 'white toe, left fore' },
  { name: 'Moss', sex: 'dog', collar: 'amber', secondMark: 'blaze' },
  { name: 'Sorrel', sex: 'bitch', collar: 'red', secondMark: 'dark mask' },
  { name: 'Sedge', sex: 'dog', collar: 'green', secondMark: 'star on chest' },
  { name: 'Yarrow', sex: 'bitch', collar: 'white', secondMark: 'pale tail tip' },
  { name: 'Heather', sex: 'bitch', collar: 'purple', secondMark: 'white chin' },
  { name: 'Bramble', sex: 'dog', collar: 'black', secondMark: 'none' },
  { name: 'Teasel', sex: 'bitch', collar: 'pink', secondMark: 'light rims' },
  { name: 'Burdock', sex: 'dog', collar: 'brown', secondMark: 'two white toes' },
] as const;

const otherSeats: readonly SeatInput[] = [
  { label: 'mentor', kind: 'live', leads: false, picks: false, interest: '' },
  { label: 'photographer', kind: 'photographs', leads: false, picks: false, interest: '' },
  { label: 'co-owner', kind: 'hands', leads: false, picks: true, interest: 'second pick' },
];

export type Quillmarsh = {
  readonly id: string;
  readonly owner: TestClient;
  /** By label: mentor, photographer, co-owner; each joined by its own link. */
  readonly seats: Readonly<Record<string, TestClient>>;
  readonly links: Readonly<Record<string, string>>;
};

export type Seeding = {
  readonly puppies?: number;
  readonly sheet?: 'full' | 'short';
  readonly medium?: 'table' | 'photographs';
  readonly join?: boolean /** Labels of the other seats; all three where left out. */;
  readonly panel?: readonly string[];
};

/** A litter and an evaluation in preparation, its panel joined; the owner sits as `breeder`. */
export async function seedQuillmarsh(
  owner: TestClient,
  { puppies = 4, sheet = 'short', medium = 'table', join = true, panel }: Seeding = {},
): Promise<Quillmarsh> {
  const litter = {
    name: 'Quillmarsh autumn',
    breed: 'Leonberger',
    dam: 'Canary Dam',
    sire: 'Canary Sire',
    whelpedOn: '2026-07-18',
  };
  const { id: litterId } = await owner.api.litter.save.mutate({ id: null, litter });
  for (const puppy of quillmarshPuppies.slice(0, puppies)) {
    await owner.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  }
  const { id } = await owner.api.setup.create.mutate({
    litterId,
    sheetId: builtInSheetIds[sheet],
    input: { name: 'Eight weeks', heldOn: '2026-09-12', medium, callLink: '', callNumber: '', tableNote: '' },
  });
  const seats: Record<string, TestClient> = {};
  const links: Record<string, string> = {};
  for (const seat of otherSeats.filter(({ label }) => panel?.includes(label) ?? true)) {
    const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat });
    const { token } = await owner.api.setup.invite.mutate({ id, seatId });
    links[seat.label] = `${owner.url}/join#${token}`;
    const client = testClient(owner.url);
    if (join) await client.api.session.join.mutate({ token });
    if (join && seat.picks) await client.api.setup.confirmPickOrder.mutate({ id });
    seats[seat.label] = client;
  }
  return { id, owner, seats, links };
}
