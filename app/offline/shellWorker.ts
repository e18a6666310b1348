import { serverMark } from '#lib/contract/wire';

/** What one build of the pages consists of; nothing in it holds anybody's data. */
export type Shell = {
  readonly build: string;
  /** Paths of the static pages, without a query. */
  readonly pages: readonly string[];
  /** Paths of scripts, styles, fonts and the icon; their names change with their content. */
  readonly assets: readonly string[];
};

type World = {
  readonly origin: string;
  readonly caches: Pick<CacheStorage, 'open' | 'keys' | 'delete'>;
  readonly fetch: (request: Request) => Promise<Response>;
  /** How long a page may keep the person waiting before the kept one is shown. */
  readonly patienceMs: number;
};

type Asked = Pick<Request, 'method' | 'mode' | 'url'>;

type ShellWorker = {
  install(): Promise<void>;
  activate(): Promise<void>;
  /** The answer, or null where the browser shall ask the server as if there were no worker. */
  answer(request: Request): Promise<Response> | null;
};

const prefix = 'evenstack-shell-';

/**
 * Keeps the shell of one build on the device, so that pages open without the server. A cache holds one whole build and
 * is never mixed with another; pages come from the server while it answers, so no old one is stuck. Whatever is not in
 * the list passes by: answers of the API are never seen here, let alone kept.
 */
export function createShellWorker(shell: Shell, { origin, caches, fetch, patienceMs }: World): ShellWorker {
  const name = `${prefix}${shell.build}`;
  const pages = new Set(shell.pages);
  const assets = new Set(shell.assets);

  const kept = async (path: string) => (await caches.open(name)).match(path, { ignoreVary: true });

  /** The server's own answer, in time and no fault; else what is kept; else whatever is said in the end, be it a stranger's. */
  const page = async (request: Request, path: string): Promise<Response> => {
    const asked = fetch(request);
    const sound = asked.then(
      (response) => (isOurs(response) && response.status < 500 ? response : null),
      () => null,
    );
    const inTime = await Promise.race([
      sound,
      new Promise<null>((resolve) => setTimeout(() => resolve(null), patienceMs)),
    ]);
    return inTime ?? (await kept(path)) ?? asked;
  };

  const asset = async (request: Request, path: string): Promise<Response> => (await kept(path)) ?? fetch(request);

  /** Fresh from the server, past the browser's cache: a stranger's answer may lie there. Throws unless the server gave it, so that no half and no foreign shell is kept. */
  const ownAnswer = async (path: string): Promise<Response> => {
    const answer = await fetch(new Request(new URL(path, origin), { cache: 'reload' }));
    if (!answer.ok || !isOurs(answer)) throw new TypeError(`${path} was not answered by the server`);
    return answer;
  };

  return {
    install: async () => {
      const cache = await caches.open(name);
      const answers = await Promise.all(
        [...shell.pages, ...shell.assets].map(async (path) => [path, await ownAnswer(path)] as const),
      );
      await Promise.all(answers.map(([path, answer]) => cache.put(path, answer)));
    },
    activate: async () => {
      const old = (await caches.keys()).filter((one) => one.startsWith(prefix) && one !== name);
      await Promise.all(old.map((one) => caches.delete(one)));
    },
    answer: (request) => {
      const path = shellPath(request, origin);
      if (path === null) return null;
      if (request.mode === 'navigate') return pages.has(path) ? page(request, path) : null;
      return assets.has(path) ? asset(request, path) : null;
    },
  };
}

function shellPath({ method, url }: Asked, origin: string): string | null {
  const asked = new URL(url);
  return method === 'GET' && asked.origin === origin ? asked.pathname : null;
}

const isOurs = ({ headers }: Response) => headers.get(serverMark.name) === serverMark.value;
