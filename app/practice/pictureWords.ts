import type { PracticePicture } from '#lib/contract/practice';

export const pictureWords: Readonly<Record<PracticePicture, string>> = { first: 'First picture', second: 'Second picture' };
