export type PressedImage = {
  readonly large: Buffer;
  readonly thumb: Buffer;
  readonly width: number;
  readonly height: number;
  /** At most 1 KB, as a data address. */
  readonly placeholder: string;
};

/** Writes a picture anew. Throws picture-too-big or file-unreadable. Asked for one picture at a time. */
export type Press = (bytes: Buffer) => Promise<PressedImage>;

/** What a press of its own process answers. */
export type PressReply = { readonly image: PressedImage } | { readonly refusal: 'picture-too-big' | 'file-unreadable' };
