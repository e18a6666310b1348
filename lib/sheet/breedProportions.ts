import type { RatioKey } from '../photo/ratio';

type BreedFigure = {
  readonly breed: string;
  /** The ratio it can be held against, measured between the same landmarks; null where it is words only. */
  readonly ratio: RatioKey | null;
  /** Lowest and highest published value of that ratio; equal where one value is given, null where it is words only. */
  readonly published: readonly [low: number, high: number] | null;
  /** The figure in our own words, with its measuring points. */
  readonly words: string;
  /** Issuing body, number or name of the standard, edition as far as known. */
  readonly source: string;
  /** `read`: in a copy of the standard, not always the newest; `memory`: not checked against a text. */
  readonly basis: 'read' | 'memory';
};

const fromShoulder = 'Point of shoulder to point of buttock';
const fromBreastbone = 'Front of breastbone to point of buttock';
const undated = 'edition not noted';

type Detail = Pick<BreedFigure, 'words' | 'source'> & { readonly basis?: BreedFigure['basis'] };

const figure = (
  breed: string,
  [ratio, low, high]: readonly [RatioKey, number, number],
  { basis = 'read', ...detail }: Detail,
): BreedFigure => ({
  breed,
  ratio,
  published: [low, high],
  basis,
  ...detail,
});
const inWords = (breed: string, { basis = 'read', ...detail }: Detail): BreedFigure => ({
  breed,
  ratio: null,
  published: null,
  basis,
  ...detail,
});

/**
 * Proportions that published breed standards give, restated in our own words. They describe grown dogs; standards differ in
 * their measuring points and change with their editions, so the owner confirms or replaces a figure before it is used.
 */
export const breedProportions: readonly BreedFigure[] = [
  figure('German Shepherd', ['length-height', 10 / 9, 10 / 8.5], {
    words: `${fromShoulder} is 10 to a height of 8½ to 9.`,
    source: `The Kennel Club (UK), German Shepherd Dog, ${undated}`,
  }),
  figure('German Shepherd', ['depth-height', 0.45, 0.48], {
    words: 'Chest depth is 45 to 48 hundredths of the height.',
    source: `The Kennel Club (UK), German Shepherd Dog, ${undated}`,
  }),
  figure('German Shepherd', ['length-height', 1.1, 1.17], {
    words: 'The trunk is about 10 to 17 hundredths longer than the height.',
    source: 'FCI 166, current edition',
    basis: 'memory',
  }),
  inWords('German Shepherd', {
    words: 'Head about 40 hundredths of the height; skull about half of the head, as wide as long.',
    source: 'FCI 166, 1991',
  }),
  figure('Rottweiler', ['breastbone-length-height', 1, 1.15], {
    words: `${fromBreastbone} is at most 15 hundredths more than the height.`,
    source: `FCI 147, ${undated}`,
  }),
  figure('Rottweiler', ['depth-height', 0.5, 0.5], {
    words: 'Chest depth is about half of the height.',
    source: `FCI 147, ${undated}`,
  }),
  figure('Rottweiler', ['muzzle-skull', 1 / 1.5, 1 / 1.5], {
    words: 'Muzzle to skull is about 1 to 1½.',
    source: `FCI 147, ${undated}`,
  }),
  figure('Boxer', ['length-height', 1, 1], {
    words: `Square: ${fromShoulder.toLowerCase()} equals the height.`,
    source: `FCI 144, ${undated}`,
  }),
  figure('Boxer', ['depth-height', 0.5, 0.5], {
    words: 'Chest depth is half of the height.',
    source: `FCI 144, ${undated}`,
  }),
  figure('Boxer', ['muzzle-skull', 0.5, 0.5], {
    words: 'Bridge of nose to skull is 1 to 2.',
    source: `FCI 144, ${undated}`,
  }),
  inWords('Boxer', {
    words:
      'Square, from the front of the forechest to the rear of the thigh; muzzle a third of the head, two thirds of the skull’s width; depth half of the height.',
    source: `American Kennel Club, Boxer, ${undated}`,
  }),
  figure('Dobermann', ['breastbone-length-height', 1, 1.1], {
    words: `${fromBreastbone} is more than the height by at most 5 hundredths in dogs, 10 in bitches.`,
    source: 'FCI 143, 2015',
  }),
  figure('Dobermann', ['length-height', 1, 1.1], {
    words: `${fromShoulder} is more than the height by at most 5 hundredths in dogs, 10 in bitches.`,
    source: 'FCI 143, a text of the 1990s',
  }),
  figure('Belgian Shepherd', ['length-height', 1, 1], {
    words: `Square: ${fromShoulder.toLowerCase()} equals the height. Stands by itself when looked at.`,
    source: `FCI 15, ${undated}`,
  }),
  inWords('Belgian Shepherd', {
    words: 'The chest reaches the elbow; the muzzle is half of the head or a little more.',
    source: `FCI 15, ${undated}`,
  }),
  figure('Bernese Mountain Dog', ['length-height', 10 / 9, 10 / 9], {
    words: `${fromShoulder} is 10 to a height of 9.`,
    source: `FCI 45, ${undated}`,
  }),
  figure('Bernese Mountain Dog', ['depth-height', 0.5, 0.5], {
    words: 'Chest depth to height is 1 to 2.',
    source: `FCI 45, ${undated}`,
    basis: 'memory',
  }),
  figure('Leonberger', ['length-height', 10 / 9, 10 / 9], {
    words: 'Length to height is 10 to 9.',
    source: `FCI 145, ${undated}`,
  }),
  figure('Leonberger', ['depth-height', 0.5, 0.5], {
    words: 'Chest depth is nearly half of the height.',
    source: `FCI 145, ${undated}`,
  }),
  figure('Leonberger', ['muzzle-skull', 1, 1], {
    words: 'Muzzle and skull are about equally long.',
    source: `FCI 145, ${undated}`,
  }),
  figure('Shiba', ['length-height', 1.1, 1.1], {
    words: 'Length to height is 11 to 10.',
    source: `FCI 257, ${undated}`,
  }),
  figure('Samoyed', ['length-height', 1.05, 1.05], {
    words: 'Length is about 5 hundredths more than the height.',
    source: `FCI 212, ${undated}`,
  }),
  figure('Samoyed', ['muzzle-skull', 1, 1], {
    words: 'Muzzle and skull are about equally long; depth slightly under half of the height.',
    source: `FCI 212, ${undated}`,
  }),
  inWords('Samoyed', {
    words: 'Leg about 55 hundredths of the height.',
    source: `American Kennel Club, Samoyed, ${undated}`,
    basis: 'memory',
  }),
  figure('Dachshund', ['breastbone-length-height', 1.7, 1.8], {
    words: `${fromBreastbone} is about 1.7 to 1.8 times the height; about a third of the height is clear of the ground.`,
    source: 'FCI 148, 2019',
  }),
  inWords('Dachshund', {
    words:
      'Height about half of the length from breastbone to the rear of the thigh; the shorter body is preferred, and exaggeration is linked to trouble of the back.',
    source: `The Kennel Club (UK), Dachshund, ${undated}`,
  }),
  figure('Lagotto Romagnolo', ['breastbone-length-height', 1, 1], {
    words: `Square: ${fromBreastbone.toLowerCase()} equals the height.`,
    source: `FCI 298, ${undated}`,
  }),
  figure('Lagotto Romagnolo', ['depth-height', 0.44, 0.44], {
    words: 'Chest depth is about 44 hundredths of the height.',
    source: `FCI 298, ${undated}`,
  }),
  figure('Lagotto Romagnolo', ['muzzle-skull', 44 / 56, 44 / 56], {
    words: 'Skull to muzzle is 56 to 44; the head is 40 hundredths of the height.',
    source: `FCI 298, ${undated}`,
  }),
  figure('Lagotto Romagnolo', ['breastbone-length-height', 1, 1], {
    words: `Square: ${fromBreastbone.toLowerCase()} equals the height.`,
    source: `American Kennel Club, Lagotto Romagnolo, ${undated}`,
  }),
  inWords('Poodle', {
    words:
      'Slightly longer than tall; muzzle about nine tenths of the skull; elbow at five ninths of the height; an older text: head a little over two fifths of the height.',
    source: `FCI 172, ${undated}`,
  }),
  figure('Poodle', ['muzzle-skull', 0.9, 0.9], {
    words: 'Muzzle about nine tenths of the skull.',
    source: `FCI 172, ${undated}`,
  }),
  figure('Cane Corso', ['length-height', 1.11, 1.11], {
    words: 'Length is 11 hundredths more than the height; head 36 hundredths of the height; skull as wide as long.',
    source: 'FCI 343, 2015',
  }),
  inWords('Hungarian Vizsla', {
    words: 'Slightly longer than tall; the brisket lies slightly below half of the height.',
    source: 'FCI 57, 2000',
  }),
  inWords('Miniature Schnauzer', {
    words: 'Nearly square; head about half of the back from withers to root of tail.',
    source: 'FCI 183, 2007',
  }),
  figure('Siberian Husky', ['muzzle-skull', 1, 1], {
    words: 'Nose to stop equals stop to back of skull.',
    source: `FCI 270, ${undated}`,
  }),
  inWords('Siberian Husky', {
    words:
      'Slightly longer than tall (point of shoulder to rear of croup); elbow to ground slightly more than elbow to withers.',
    source: `FCI 270 and American Kennel Club, Siberian Husky, ${undated}`,
  }),
  figure('Golden Retriever', ['breastbone-length-height', 12 / 11, 12 / 11], {
    words: `${fromBreastbone} is 12 to a height of 11.`,
    source: `American Kennel Club, Golden Retriever, ${undated}`,
  }),
  inWords('Golden Retriever', {
    words: 'Elbow at about half of the height.',
    source: `Guidance of the Canadian breed club, ${undated}`,
  }),
  figure('Pembroke Welsh Corgi', ['muzzle-skull', 3 / 5, 3 / 5], {
    words: 'Foreface to skull is 3 to 5.',
    source: `FCI 39, ${undated}`,
  }),
  inWords('Pembroke Welsh Corgi', {
    words: 'Withers to root of tail about 40 hundredths more than withers to ground.',
    source: `American Kennel Club, Pembroke Welsh Corgi, ${undated}`,
  }),
  figure('Weimaraner', ['muzzle-skull', 1, 1], {
    words: 'Nose to stop equals stop to back of skull; elbow to ground about equals elbow to withers.',
    source: `American Kennel Club, Weimaraner, ${undated}`,
  }),
  figure('Weimaraner', ['length-height', 12 / 11, 12 / 11], {
    words: 'Length to height is about 12 to 11.',
    source: `FCI 99, ${undated}`,
    basis: 'memory',
  }),
  inWords('Lakeland Terrier', {
    words: 'Stop to nose is not longer than back of skull to stop.',
    source: `FCI 70 and The Kennel Club (UK), Lakeland Terrier, ${undated}`,
  }),
  figure('Akita', ['length-height', 1.1, 1.1], {
    words: 'Height to length is 10 to 11.',
    source: `FCI 255, ${undated}`,
    basis: 'memory',
  }),
  inWords('German Shorthaired Pointer', {
    words: 'Slightly longer than tall.',
    source: `FCI 119, ${undated}`,
    basis: 'memory',
  }),
  inWords('French Bulldog', {
    words:
      'Near square, slightly longer; a short muzzle as a fraction of the head, revised in 2023: see the current text.',
    source: 'FCI 101, 2023',
    basis: 'memory',
  }),
];

/** The figures of a breed, however it is typed. */
export function figuresOfBreed(breed: string): readonly BreedFigure[] {
  const plain = (name: string) => name.toLowerCase().replace(/[^a-z]/g, '');
  const wanted = plain(breed);
  return wanted === '' ? [] : breedProportions.filter((one) => plain(one.breed) === wanted);
}

const narrowest = 0.05;

/**
 * The band a published ratio stands for: never narrower than 5 per cent either way of its middle, because neither standards
 * nor pictures are surer than that (common practice). Worked example: 1.11 to 1.11 gives 1.0545 to 1.1655.
 */
export function figureBand([low, high]: readonly [low: number, high: number]): {
  readonly low: number;
  readonly high: number;
} {
  const middle = (low + high) / 2;
  return { low: Math.min(low, middle * (1 - narrowest)), high: Math.max(high, middle * (1 + narrowest)) };
}
