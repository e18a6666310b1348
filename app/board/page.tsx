import type { Metadata } from 'next';
import { BoardScreen } from './BoardScreen';

export const metadata: Metadata = { title: 'Board · Evenstack' };

export default function BoardPage() {
  return <BoardScreen />;
}
