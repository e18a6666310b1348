/** Handed to the browser as a download, made here: it goes through no address. */
export function offerFile(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(
    new Blob([text], { type: name.endsWith('.json') ? 'application/json' : 'text/csv;charset=utf-8' }),
  );
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
