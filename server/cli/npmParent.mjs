const everyMs = 500;

/**
 * npm puts a shell between itself and us, and passes a stop on to that shell only: it dies and we would stay behind with the
 * port. So when the shell is gone we stop ourselves, by the same signal. Started without npm there is nothing to watch.
 */
export function stopWithNpm() {
  if (process.env.npm_lifecycle_event === undefined) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, 'SIGTERM');
  }, everyMs);
  watch.unref();
}
