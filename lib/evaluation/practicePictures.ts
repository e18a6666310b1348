import type { PracticePicture } from '../contract/practice';

/** In the order they are shown. */
export const practicePictures: readonly PracticePicture[] = ['first', 'second'];
