/** While something is fetched: says what. Keeps its place quiet, so that nothing jumps when it arrives. */
export function Loading({ what }: { readonly what: string }) {
  return (
    <p role="status" className="small">
      Fetching {what}…
    </p>
  );
}
