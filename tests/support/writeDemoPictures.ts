import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoPicture, demoShapes, demoViews } from './demoPictures';

// `npx tsx tests/support/writeDemoPictures.ts`: draws the demo's pictures anew, after a change of the drawing.
const folder = fileURLToPath(new URL('../../fixtures/demo/pictures/', import.meta.url));
mkdirSync(folder, { recursive: true });
const lines: unknown[] = [];
for (const puppy of Object.keys(demoShapes)) {
  for (const view of demoViews) {
    const { bytes, ...facts } = await demoPicture(puppy, view);
    const file = `${puppy.toLowerCase()}-${view}.webp`;
    writeFileSync(`${folder}${file}`, bytes);
    lines.push({ puppy, view, file, ...facts });
  }
}
writeFileSync(`${folder}pictures.json`, `${JSON.stringify(lines, null, 1)}\n`);
