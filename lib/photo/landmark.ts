/** Places on a puppy that a person can find on a side photograph. */
export const landmarkKeys = ['shoulder', 'breastbone', 'buttock', 'withers', 'ground', 'elbow', 'brisket', 'nose', 'stop', 'occiput'] as const;
export type Landmark = (typeof landmarkKeys)[number];

export type LandmarkWords = { readonly name: string; readonly where: string };

/** Where to put it, in words a hand can follow. General anatomy; no source. */
export const landmarkWords: Readonly<Record<Landmark, LandmarkWords>> = {
  shoulder: { name: 'point of the shoulder', where: 'The bony knob at the front of the body where the shoulder blade meets the upper arm.' },
  breastbone: { name: 'front of the breastbone', where: 'The foremost point of the chest, between the two shoulders.' },
  buttock: { name: 'point of the buttock', where: 'The rearmost point of the pelvis, just below the root of the tail.' },
  withers: { name: 'withers', where: 'The highest point of the back, above the front leg, where neck and back meet.' },
  ground: { name: 'ground below the withers', where: 'Where the sole of the nearer front foot meets the table.' },
  elbow: { name: 'elbow', where: 'The tip of the elbow of the nearer front leg, close to the chest.' },
  brisket: { name: 'lowest point of the chest', where: 'The lower edge of the chest straight below the withers, just behind the elbow.' },
  nose: { name: 'tip of the nose', where: 'The foremost point of the nose.' },
  stop: { name: 'stop', where: 'The deepest point of the step between forehead and bridge of the nose, level with the inner corner of the eye.' },
  occiput: { name: 'back of the skull', where: 'The bony point at the back of the head, between the ears.' },
};
