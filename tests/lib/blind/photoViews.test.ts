import { expect, it } from 'vitest';
import { anonymousMarks, photoFace } from '#lib/blind/photoViews';
import { type Measurement, photoFaceSchema, type Pointer } from '#lib/contract/photo';
import { fern, id, mentor } from '#tests/support/evaluationFacts';

const photo = {
  id: id('9'),
  puppyId: fern.id,
  view: 'left-side',
  kind: 'picture',
  takenAt: 5,
  width: 40,
  height: 30,
  placeholder: '#abcdef',
  fair: true,
  keeper: false,
  seatId: mentor.id,
} as const;

it.each([
  [mentor.id, true],
  [id('0'), false],
  [null, false],
])('BL2: a picture tells seat %s nothing of its files, nor of who else brought it', (viewer, own) => {
  const face = photoFace({ ...photo, ...{ hash: 'quince', file: 'quince' } }, viewer);
  expect(photoFaceSchema.safeParse(face).error).toBeUndefined();
  expect(face).toEqual({
    id: id('9'),
    puppyId: fern.id,
    view: 'left-side',
    kind: 'picture',
    takenAt: 5,
    width: 40,
    height: 30,
    placeholder: '#abcdef',
    fair: true,
    keeper: false,
    own,
  });
});

it('BL2: a picture of the owner’s is her own where she holds no seat', () => {
  expect(photoFace({ ...photo, seatId: null, fair: false, keeper: true }, null)).toMatchObject({
    own: true,
    fair: false,
    keeper: true,
  });
  expect(photoFace({ ...photo, seatId: null }, mentor.id).own).toBe(false);
});

const placed = (sign: string, seat: string) => ({
  id: id(sign),
  photoId: id('9'),
  seat,
  at: 7,
  blind: true,
  held: false,
});
const pointer = (sign: string, seat: string): Pointer => ({
  ...placed(sign, seat),
  kind: 'ring',
  from: { x: 0, y: 0 },
  to: { x: 1, y: 1 },
  note: 'here',
});
const measurement = (sign: string, seat: string): Measurement => ({
  ...placed(sign, seat),
  ratio: 'length-height',
  placing: {},
  sizeMillimetres: 60,
  setting: { landmarkError: 5, turn: 0, distance: 1000, tooHigh: 0 },
});

it('BL9: in an anonymous panel marks of others name themselves, without a time, in the order of their ids; one’s own keep theirs', () => {
  const [own, other] = [id('e'), id('7')];
  const marks = {
    pointers: [pointer('3', other), pointer('1', own), pointer('2', other)],
    measurements: [measurement('5', own), measurement('4', other)],
  };
  expect(anonymousMarks(marks, own)).toEqual({
    pointers: [pointer('1', own), { ...pointer('2', id('2')), at: 0 }, { ...pointer('3', id('3')), at: 0 }],
    measurements: [{ ...measurement('4', id('4')), at: 0 }, measurement('5', own)],
  });
  const watched = JSON.stringify(anonymousMarks(marks, null));
  for (const seat of [own, other]) expect(watched).not.toContain(seat);
});
