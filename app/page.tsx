export default function HomePage() {
  return <main>Evenstack</main>;
}
