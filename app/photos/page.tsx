import type { Metadata } from 'next';
import { PhotosScreen } from './PhotosScreen';

export const metadata: Metadata = { title: 'Photographs · Evenstack' };

export default function PhotosPage() {
  return <PhotosScreen />;
}
