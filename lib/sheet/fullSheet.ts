import { above } from './catalogue/above';
import { front } from './catalogue/front';
import { hands } from './catalogue/hands';
import { head } from './catalogue/head';
import { rear } from './catalogue/rear';
import { side } from './catalogue/side';
import { byView } from './byView';
import { checkKeys } from './check';
import type { Sheet } from './sheet';

/** All 22 criteria and all eleven checks, on seven steps. */
export const fullSheet: Sheet = {
  name: 'Full sheet',
  scale: { low: 1, high: 7 },
  criteria: byView([...side, ...front, ...rear, ...above, ...hands, ...head]),
  checks: [...checkKeys],
};
