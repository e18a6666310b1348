import type { Metadata } from 'next';
import { LookScreen } from './LookScreen';

export const metadata: Metadata = { title: 'Second look · Evenstack' };

export default function LookPage() {
  return <LookScreen />;
}
