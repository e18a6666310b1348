import type { Metadata } from 'next';
import { ImportScreen } from './ImportScreen';

export const metadata: Metadata = { title: 'Typed scores · Evenstack' };

export default function ImportPage() {
  return <ImportScreen />;
}
