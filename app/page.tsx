import { StartScreen } from './_start/StartScreen';

export default function StartPage() {
  return <StartScreen />;
}
