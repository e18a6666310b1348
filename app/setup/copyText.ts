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
