/** Where a picture's file is: by its own random id, which tells nothing of the puppy. */
export function photoAddress(id: string, size: 'large' | 'small'): string {
  return `/api/photo/${id}/${size}`;
}
