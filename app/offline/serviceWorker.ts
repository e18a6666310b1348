import { createShellWorker, type Shell } from './shellWorker';

/** Filled in when the worker is bundled: what the build beside it consists of. */
declare const builtShell: Shell;

type LifeEvent = Event & { waitUntil(work: Promise<unknown>): void };
type FetchEvent = LifeEvent & { readonly request: Request; respondWith(answer: Promise<Response>): void };

/** The part of a service worker's world used here; the type library of workers and that of pages exclude each other. */
type WorkerWorld = {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: 'install' | 'activate', listener: (event: LifeEvent) => void): void;
  addEventListener(kind: 'fetch', listener: (event: FetchEvent) => void): void;
};

const world = globalThis as unknown as WorkerWorld;
const worker = createShellWorker(builtShell, {
  origin: world.location.origin,
  caches,
  fetch: (request) => fetch(request),
  patienceMs: 1500,
});

world.addEventListener('install', (event) => event.waitUntil(worker.install().then(() => world.skipWaiting())));
world.addEventListener('activate', (event) => event.waitUntil(worker.activate().then(() => world.clients.claim())));
world.addEventListener('fetch', (event) => {
  const answer = worker.answer(event.request);
  if (answer) event.respondWith(answer);
});
