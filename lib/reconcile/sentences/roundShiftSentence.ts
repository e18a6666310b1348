import type { RoundShift } from '../talk/roundShift';
import { listed, nameOf, type Names } from './readings';

/**
 * What the second round did: "Of 5 scores asked again, the range fell in 3: in 2 the seats met between, in 1 the others came over to the mentor. It
 * stayed in 1 and rose in 1." Counts of cells, no more: a fall of the range is not proof of a better answer.
 */
export function roundShiftSentence({ cells }: Pick<RoundShift, 'cells'>, names: Names): string {
  const of = (kind: RoundShift['cells'][number]['kind']) => cells.filter((cell) => cell.kind === kind);
  const [together, oneVoice, apart, unchanged, few] = [
    of('together'),
    of('oneVoice'),
    of('apart'),
    of('unchanged'),
    of('tooFew'),
  ];
  const fell = together.length + oneVoice.length;
  const voices = [...new Set(oneVoice.flatMap(({ voice }) => voice ?? []))].map((voice) => nameOf(names, voice));
  const how = [
    ...(together.length > 0 ? [`in ${together.length} the seats met between`] : []),
    ...(oneVoice.length > 0
      ? [
          `in ${oneVoice.length} the others came over to ${voices.length > 0 ? listed([...new Set(voices)]) : 'one seat'}`,
        ]
      : []),
  ];
  const rest = [
    ...(unchanged.length > 0 ? [`stayed in ${unchanged.length}`] : []),
    ...(apart.length > 0 ? [`rose in ${apart.length}`] : []),
    ...(few.length > 0 ? [`cannot be compared in ${few.length}, where fewer than two seats answered twice`] : []),
  ];
  const head = `Of ${cells.length} ${cells.length === 1 ? 'score' : 'scores'} asked again, the range between seats fell in ${fell}`;
  return `${head}${how.length > 0 ? `: ${listed(how)}` : ''}.${rest.length > 0 ? ` It ${listed(rest)}.` : ''}`;
}
