/** Hours since a meal in words: "half an hour", "one hour", "3 hours". */
export function mealWords(hours: number): string {
  if (hours === 0.5) return 'half an hour';
  return hours === 1 ? 'one hour' : `${hours} hours`;
}
