import { expect, test } from '@playwright/test';
import { startLiveDay } from '#tests/bench/liveDay';
import { playLive, startTelephone } from '#tests/bench/playLive';

/** A few seconds of `npm run bench:live`: that it runs and counts right. How fast is for the bench to say, on a machine that does nothing else. */
test('SC1, BL3: twelve seats score at once, every score is answered, and every device of a seat hears of its own', async () => {
  const live = await startLiveDay();
  try {
    const telephone = await startTelephone(live, 1);
    const until = Promise.all([telephone.send(), new Promise((resolve) => setTimeout(resolve, 2000))]);
    const { acknowledged, own, all } = await playLive(live, { perSecond: 12, until });
    expect(acknowledged.many).toBeGreaterThanOrEqual(12);
    // Ten seats have four devices that listen beside the one that scores, two have none.
    expect(own.many).toBeGreaterThan(acknowledged.many * 3);
    expect(all.many).toBeGreaterThanOrEqual(live.sockets.length);
    for (const { p50, p99, most } of [acknowledged, own, all]) expect(p50 > 0 && p50 <= p99 && p99 <= most).toBe(true);
  } finally {
    await live.end();
  }
});
