/** How the record names a seat: by its id, so that no person's name is in what can never change. db/queries/listRecord puts the label. */
export function seatName(id: string): string {
  return `seat:${id}`;
}
