import type { Link } from '../_data/useLive';
import { clock } from './linkWords';

type Props = { readonly link: Link; readonly readAt: number };

/** Said where a screen follows by itself, while it cannot: since when, and from when it is what it shows. */
export function NoLink({ link, readAt }: Props) {
  if (link.connected || link.lostAt === null) return null;
  return (
    <p role="note">
      <strong>No link since {clock(link.lostAt)}.</strong> What you see here was read at {clock(readAt)}; it is brought up to date by itself when the link is back.
    </p>
  );
}
