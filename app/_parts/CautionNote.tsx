import { type CautionKey, cautions } from '#lib/sheet/cautions';

/** One caution in the sheet's own words, where it matters. */
export function CautionNote({ caution }: { readonly caution: CautionKey }) {
  const { title, text } = cautions[caution];
  return (
    <div role="note" className="warned text slim">
      <p className="strong tone-note">{title}</p>
      <p>{text}</p>
    </div>
  );
}
