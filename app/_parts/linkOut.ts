'use client';

import { toString as drawQrCode } from 'qrcode';
import { useEffect, useState } from 'react';

/** The link as a QR code, an SVG in a data address: drawn here, sent nowhere. Null while it is being drawn. */
export function useQrCode(link: string): string | null {
  const [code, setCode] = useState<{ readonly link: string; readonly source: string } | null>(null);
  useEffect(() => {
    let current = true;
    void drawQrCode(link, { type: 'svg', margin: 4, errorCorrectionLevel: 'M' }).then((svg) => {
      if (current) setCode({ link, source: `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}` });
    });
    return () => {
      current = false;
    };
  }, [link]);
  return code?.link === link ? code.source : null;
}

/**
 * Copies text, true when it worked. On a plain http address browsers have no clipboard for pages; there the field that
 * shows the text is selected and the old command tried.
 */
export async function copyText(text: string, field: HTMLInputElement | null): Promise<boolean> {
  try {
    if (window.isSecureContext) {
      await navigator.clipboard.writeText(text);
      return true;
    }
  } catch {
    // Refused by the browser or the person: the old way is tried.
  }
  field?.select();
  return field !== null && document.execCommand('copy');
}
