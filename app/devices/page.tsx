import type { Metadata } from 'next';
import { DevicesScreen } from './DevicesScreen';

export const metadata: Metadata = { title: 'Your devices · Evenstack' };

export default function DevicesPage() {
  return <DevicesScreen />;
}
