import fc from 'fast-check';
import { expect, it } from 'vitest';
import { clipSeconds, fileKind } from '#lib/photo/photoFile';
import { mp4Bytes, webmBytes } from '#tests/support/clipBytes';

it.each([0.5, 12, 30, 31.5, 900])('a clip that says it lasts %d seconds is read so, in both kinds', (seconds) => {
  expect(clipSeconds(mp4Bytes(seconds), 'mp4')).toBeCloseTo(seconds, 3);
  expect(clipSeconds(webmBytes(seconds), 'webm')).toBeCloseTo(seconds, 3);
});

it('ST1: a header that does not say how long is null, and no bytes make it throw', () => {
  expect(clipSeconds(new Uint8Array(0), 'mp4')).toBeNull();
  expect(clipSeconds(new Uint8Array(20), 'webm')).toBeNull();
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), fc.constantFrom('mp4' as const, 'webm' as const), (bytes, kind) => {
      const seconds = clipSeconds(bytes, kind);
      expect(seconds === null || Number.isFinite(seconds)).toBe(true);
    }),
  );
});

it('a file is what its first bytes say', () => {
  expect([
    fileKind(mp4Bytes(1)),
    fileKind(mp4Bytes(1, 'qt  ')),
    fileKind(mp4Bytes(1, 'heic')),
    fileKind(webmBytes(1)),
  ]).toEqual(['mp4', 'mov', 'heic', 'webm']);
  expect(fileKind(Buffer.from('  <svg/>'))).toBe('markup');
  expect(fileKind(new Uint8Array(0))).toBe('other');
});
