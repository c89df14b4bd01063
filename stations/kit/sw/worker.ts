/**
 * The service worker: all pages of the station out of one cache, so that a reload needs no connection.
 *
 * It knows the files of its own build and nothing else: the API, sync and every other address are never its affair.
 * A build is taken whole, each file with the content that the build gave it, or not at all. Once it is here it
 * serves the next page that is loaded; a page that is open has all it needs already: all parts are fetched at its start.
 */
export {};

/** Written in front of this file by the build. */
declare const FIBULA_BUILD: {
  readonly version: string;
  /** SHA-256 in hex, by path. */
  readonly files: Readonly<Record<string, string>>;
};

interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface FetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
interface Worker {
  addEventListener(type: 'install' | 'activate', listener: (event: WorkerEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: FetchEvent) => void): void;
  skipWaiting(): Promise<void>;
}
const worker = globalThis as unknown as Worker;

const CACHE = `fibula-${FIBULA_BUILD.version}`;
const FILES = new Map(Object.entries(FIBULA_BUILD.files));

const hex = (bytes: ArrayBuffer) =>
  Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');

/** Fetches one file. Throws when it is not the one that belongs to this build. */
async function fetched(path: string, sha256: string): Promise<Response> {
  const response = await fetch(new Request(path, { cache: 'no-cache', credentials: 'omit' }));
  const content = await response.clone().arrayBuffer();
  if (!response.ok || hex(await crypto.subtle.digest('SHA-256', content)) !== sha256)
    throw new Error(`${path} is not of this build`);
  return response;
}

async function install(): Promise<void> {
  const all = await Promise.all(
    [...FILES].map(async ([path, sha256]) => [path, await fetched(path, sha256)] as const),
  );
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(all.map(([path, response]) => cache.put(path, response)));
  } catch (error) {
    await caches.delete(CACHE); // no room: half a build is none
    throw error;
  }
  await worker.skipWaiting();
}

async function removeOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== CACHE).map((name) => caches.delete(name)));
}

/** A file that the browser has thrown away is fetched again. */
async function answer(path: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(path, { ignoreVary: true })) ?? fetch(request);
}

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(removeOthers()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin) return;
  const path = url.pathname.replace(/(.)\/$/, '$1');
  if (FILES.has(path)) event.respondWith(answer(path, request));
});
