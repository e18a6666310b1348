import { Home } from './Home';

export default function HomePage() {
  return <Home />;
}
