import { type Check, type CheckKey, checkKeys } from './check';
import { bodyChecks } from './checks/bodyChecks';
import { conditionChecks } from './checks/conditionChecks';
import { mouthChecks } from './checks/mouthChecks';
import { invariant } from '../invariant';

const all = [...bodyChecks, ...mouthChecks, ...conditionChecks];

function find(key: CheckKey): Check {
  const check = all.find((candidate) => candidate.key === key);
  invariant(check, `no check ${key}`);
  return check;
}

/** The eleven checks (SA1), in their fixed order. */
export const checkCatalogue: readonly Check[] = checkKeys.map(find);
