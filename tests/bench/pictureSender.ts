// Sends pictures one after the other, as a telephone does that is not the one that scores: a process of its own, whose pauses
// are no score's. Started by fork with a Telephone as its argument; says 'ready', waits for a word, sends, ends with 0.
import sharp from 'sharp';
import { sendPhoto } from '#tests/support/sendPhoto';

export type Telephone = {
  readonly url: string;
  readonly cookie: string;
  readonly evaluation: string;
  readonly puppies: readonly string[];
  readonly pictures: number;
};

/** Twelve megapixels with something in every corner, as a telephone takes them; each one another picture. */
async function telephonePicture(place: number): Promise<Buffer> {
  const noise = { type: 'gaussian', mean: 110 + place, sigma: 30 } as const;
  return sharp({ create: { width: 4000, height: 3000, channels: 3, background: { r: 0, g: 0, b: 0 }, noise } })
    .jpeg({ quality: 85 })
    .toBuffer();
}

// Written by the benchmark that starts this.
const { url, cookie, evaluation, puppies, pictures } = JSON.parse(process.argv[2] ?? '') as Telephone;
const prints: Buffer[] = [];
for (let place = 0; place < pictures; place += 1) prints.push(await telephonePicture(place));
const told = new Promise((resolve) => process.once('message', resolve));
process.send?.('ready');
await told;
for (const [place, bytes] of prints.entries()) {
  const { status, code } = await sendPhoto(
    { url, cookie: () => cookie },
    { evaluation, puppy: puppies[place % puppies.length] ?? '', bytes, taken: place + 1 },
  );
  if (status !== 200) throw new Error(`a picture was refused: ${status} ${code}`);
}
process.disconnect();
