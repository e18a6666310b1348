import type { EvaluatorResult } from '../reconciliation';

/** Whether a seat scores above or below the panel; says so only when the whole interval does. */
export function severitySentence({ severity }: EvaluatorResult, name: string): string {
  if ('undefined' in severity) return `Too few data to say how ${name} uses the scale.`;
  const size = Math.abs(severity.value).toFixed(1);
  if (severity.high < 0) return `${capital(name)} scores about ${size} points below the panel.`;
  if (severity.low > 0) return `${capital(name)} scores about ${size} points above the panel.`;
  return `No clear difference in level between ${name} and the panel.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
