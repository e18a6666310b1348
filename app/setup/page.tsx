import type { Metadata } from 'next';
import { SetupScreen } from './SetupScreen';

export const metadata: Metadata = { title: 'Set-up · Evenstack' };

export default function SetupPage() {
  return <SetupScreen />;
}
