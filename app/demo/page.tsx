import type { Metadata } from 'next';
import { DemoScreen } from './DemoScreen';

export const metadata: Metadata = { title: 'Demo · Evenstack' };

export default function DemoPage() {
  return <DemoScreen />;
}
