import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { open, readFile, stat } from 'node:fs/promises';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { buffer } from 'node:stream/consumers';
import yauzl, { type Entry, type ZipFile } from 'yauzl';
import {
  type EvaluationFile,
  evaluationFileHeadSchema,
  evaluationFileName,
  evaluationFileSchema,
  evaluationFileVersion,
} from '#lib/contract/evaluationFile';
import { evaluationFileLimits } from '#lib/contract/fileLimits';
import { DomainError } from '#lib/errors';

type Picture = EvaluationFile['pictures'][number];

/** A file that came, opened: what it says, and its pictures one by one. */
export type Arrival = {
  readonly file: EvaluationFile;
  /** Writes one picture to `path`; refused unless its bytes are those the text names. */
  readonly unpack: (picture: Picture, path: string) => Promise<void>;
  readonly close: () => void;
};

export const megabytes = (bytes: number) => `${Math.round(bytes / 1_000_000).toLocaleString('en')} MB`;

/** One plain sentence, shown as it is. */
export const refused = (message: string) => new DomainError('file-refused', { message });

/**
 * Opens a zip or a text as this app writes them, told by its first bytes. Nothing of a zip is unpacked but what is asked for, each
 * part only as large as it says. Throws file-refused with a sentence.
 */
export async function readArrival(path: string): Promise<Arrival> {
  const handle = await open(path, 'r');
  const start = Buffer.alloc(4);
  await handle.read(start, 0, 4, 0).finally(() => handle.close());
  if (start.toString('latin1', 0, 2) !== 'PK') return readText(path);
  const zip = await opened(path);
  try {
    const entries = await listEntries(zip);
    const text = entries.get(evaluationFileName);
    if (!text) throw refused(`There is no ${evaluationFileName} in this zip: it is no evaluation from Evenstack.`);
    if (text.uncompressedSize > evaluationFileLimits.jsonBytes) throw tooLargeText();
    const file = parse(await damaged(() => contentOf(zip, text)));
    holdTogether(file, entries);
    return {
      file,
      unpack: (picture, to) => unpack(zip, { entry: entries.get(picture.name), picture, to }),
      close: () => zip.close(),
    };
  } catch (error) {
    zip.close();
    throw error;
  }
}

const tooLargeText = () =>
  refused(
    `The text of the evaluation is larger than ${megabytes(evaluationFileLimits.jsonBytes)}, which is the most that is read.`,
  );

async function readText(path: string): Promise<Arrival> {
  if ((await stat(path)).size > evaluationFileLimits.jsonBytes) throw tooLargeText();
  const file = parse(await readFile(path));
  const { length } = file.pictures;
  if (length > 0)
    throw refused(`The pictures of this evaluation (${length}) are not in its text alone. Choose the zip.`);
  return { file, unpack: () => Promise.reject(refused('There are no pictures in a text.')), close: () => undefined };
}

/** Whatever the zip itself gets wrong is one thing to whoever chose it; the disk's faults are not the zip's. */
async function damaged<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof DomainError || (error instanceof Error && 'syscall' in error)) throw error;
    throw refused('This zip is damaged, cut short, or packed in a way that is not read here.');
  }
}

const opened = (path: string) =>
  damaged(() =>
    yauzl.openPromise(path, { lazyEntries: true, autoClose: false, validateEntrySizes: true, strictFileNames: true }),
  );

/** The directory of the zip, whole: no name twice, none that leads out of it, not more than may be. */
function listEntries(zip: ZipFile): Promise<ReadonlyMap<string, Entry>> {
  return damaged(async () => {
    const most = evaluationFileLimits.pictures + 1;
    if (zip.entryCount > most) throw refused(`This zip holds more than ${most} files.`);
    const entries = new Map<string, Entry>();
    let bytes = 0;
    for await (const entry of zip.eachEntry()) {
      if (entries.has(entry.fileName)) throw refused(`The zip holds ${entry.fileName} twice.`);
      if (entry.isEncrypted()) throw refused('The zip is locked by a password.');
      bytes += entry.uncompressedSize;
      if (bytes > evaluationFileLimits.wholeBytes)
        throw refused(
          `Unpacked, this zip is larger than ${megabytes(evaluationFileLimits.wholeBytes)}, which is the most that is read.`,
        );
      entries.set(entry.fileName, entry);
    }
    return entries;
  });
}

/** Every picture that the text names is there, and nothing else. */
function holdTogether({ pictures }: EvaluationFile, entries: ReadonlyMap<string, Entry>): void {
  const named = new Set([evaluationFileName, ...pictures.map(({ name }) => name)]);
  for (const name of entries.keys())
    if (!named.has(name)) throw refused('The zip holds a file that its text does not name.');
  for (const name of named) if (!entries.has(name)) throw refused('A picture that the text names is not in the zip.');
}

async function contentOf(zip: ZipFile, entry: Entry): Promise<Buffer> {
  return buffer(await zip.openReadStreamPromise(entry));
}

function parse(bytes: Buffer): EvaluationFile {
  const said = jsonOf(bytes);
  const head = evaluationFileHeadSchema.safeParse(said);
  if (!head.success) throw refused('This is no evaluation from Evenstack.');
  if (head.data.version !== evaluationFileVersion)
    throw refused(
      `This file is of version ${head.data.version}; this Evenstack reads version ${evaluationFileVersion}. Bring both to the same version of Evenstack.`,
    );
  const read = evaluationFileSchema.safeParse(said);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw refused(`The file does not hold what it should: ${issue?.path.slice(0, 4).join(' › ') ?? ''}.`);
}

function jsonOf(bytes: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw refused('The text of the evaluation is damaged or cut short.');
  }
}

type Unpacking = { readonly entry: Entry | undefined; readonly picture: Picture; readonly to: string };

async function unpack(zip: ZipFile, { entry, picture, to }: Unpacking): Promise<void> {
  if (entry?.uncompressedSize !== picture.bytes)
    throw refused('A picture in the zip is not as large as its text says.');
  const hash = createHash('sha256');
  const counted = new Transform({
    transform: (chunk: Buffer, _, done) => {
      hash.update(chunk);
      done(null, chunk);
    },
  });
  await damaged(async () =>
    pipeline(await zip.openReadStreamPromise(entry), counted, createWriteStream(to, { flags: 'wx', mode: 0o600 })),
  );
  if (hash.digest('hex') !== picture.sha256) throw refused('A picture in the zip is not the one that its text names.');
}
