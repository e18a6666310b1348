/** Hours as typed, with a comma or a point: null for nothing, undefined for what is no number from 0 to 72. */
export function hoursTyped(typed: string): number | null | undefined {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  if (!/^\d{1,2}(\.\d)?$/.test(text)) return undefined;
  const hours = Number(text);
  return hours <= 72 ? hours : undefined;
}
