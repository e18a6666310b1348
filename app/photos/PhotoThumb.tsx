import type { PhotoFace } from '#lib/contract/photo';
import { usePhotoAddress } from './usePhotoAddress';

/** A picture at its small size; what it shows is said beside it. */
export function PhotoThumb({ photo, lazy = false }: { readonly photo: PhotoFace; readonly lazy?: boolean }) {
  const file = usePhotoAddress(photo.id, 'small');
  return <img {...file} alt="" width={320} height={Math.round((320 * photo.height) / photo.width)} {...(lazy ? { loading: 'lazy' } : {})} />;
}
