/** Changes two lines of the server's program while it is loaded; throws where they are not as expected. */
const CHANGES = [
  ['/core/wire.ts', /PROTOCOL = 1\b/, () => `PROTOCOL = ${process.env.FIBULA_TEST_PROTOCOL}`],
  [
    '/server/main.ts',
    /new URL\(["']\.\.\/build\/stations["'], ?import\.meta\.url\)/,
    () => JSON.stringify(`file://${process.env.FIBULA_TEST_PAGES}`),
  ],
];

export async function load(url, context, nextLoad) {
  const loaded = await nextLoad(url, context);
  const change = CHANGES.find(([end]) => new URL(url).pathname.endsWith(end));
  if (!change) return loaded;
  const [, from, to] = change;
  const source = String(loaded.source);
  if (!from.test(source)) throw new Error(`${url} has nothing that fits ${from}`);
  return { ...loaded, source: source.replace(from, to) };
}
