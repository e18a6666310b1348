import type { DomainError } from '#lib/errors';
import type { Media } from '#lib/photo/photoFile';

/** Where an upload lies, and the names that what becomes of it shall have in a folder. */
export type Upload = { readonly path: string; readonly folder: string; readonly file: string; readonly thumb: string };

/** Makes files of an upload. Throws a file-…, picture-… or clip-… refusal, or the disk's fault. Asked for one upload at a time. */
export type Intake = (upload: Upload) => Promise<Media>;

/** What an intake in a process of its own answers; `fault` is an error's message and system code. */
export type IntakeReply =
  | { readonly media: Media }
  | { readonly refusal: Pick<DomainError, 'code' | 'details'> }
  | { readonly fault: { readonly message: string; readonly code: string | undefined } };
