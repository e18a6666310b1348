import type { Metadata } from 'next';
import { JoinForm } from './JoinForm';

export const metadata: Metadata = { title: 'Join · Evenstack' };

export default function JoinPage() {
  return <JoinForm />;
}
