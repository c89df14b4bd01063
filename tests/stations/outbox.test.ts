/** The device's own list of entries, over a real implementation of IndexedDB in memory. */
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { beforeAll, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { DeviceStore } from '../../stations/kit/store/device.ts';
import { Outbox } from '../../stations/kit/store/outbox.ts';
import { Slip } from '../../stations/kit/store/slip.ts';
import { plainStorage } from '../helpers/storage.ts';

const SESSION = '0'.repeat(32);
const fact = (id: string) => ({ id, kind: 'note' }) as unknown as Fact;
const facts = (...ids: string[]) => ids.map(fact);

beforeAll(() => {
  globalThis.IDBKeyRange ??= IDBKeyRange;
});

const storeOf = (factory: () => IDBFactory) => new DeviceStore(() => undefined, factory);
const tabsOfOneBrowser = () => {
  const browser = new IDBFactory();
  const storage = plainStorage();
  const tab = () =>
    new Outbox(
      storeOf(() => browser),
      new Slip(storage),
    );
  return [tab(), tab()] as const;
};
const kept = async (outbox: Outbox) => (await outbox.of(SESSION)).map(({ id }) => id);

it('keeps the order in which entries were written, whichever tab wrote them', async () => {
  const [first, second] = tabsOfOneBrowser();
  await first.begin();
  await first.put(SESSION, facts('z', 'y'));
  await second.begin();
  await Promise.all([second.put(SESSION, facts('x')), second.put(SESSION, facts('w', 'v'))]);
  await first.begin();
  await first.put(SESSION, facts('u'));
  expect(await kept(second)).toEqual(['z', 'y', 'x', 'w', 'v', 'u']);
});

it('keeps it too while the last order is still being read', async () => {
  const [first, second] = tabsOfOneBrowser();
  await first.put(SESSION, facts('z', 'y'));
  const begun = second.begin();
  await Promise.all([second.put(SESSION, facts('x')), second.put(SESSION, facts('w')), begun]);
  await second.put(SESSION, facts('v'));
  const entries = await first.of(SESSION);
  expect(entries.map(({ id }) => id)).toEqual(['z', 'y', 'x', 'w', 'v']);
  expect(new Set(entries.map(({ order }) => order)).size).toBe(5);
});

it('takes in at its start what an earlier page was writing when it went away', async () => {
  const storage = plainStorage();
  // The browser of a page that goes away: its databases never answer again.
  const never = { open: () => ({}) } as unknown as IDBFactory;
  const gone = new Outbox(
    storeOf(() => never),
    new Slip(storage),
  );
  void gone.put(SESSION, facts('z', 'y'));
  const browser = new IDBFactory();
  const next = new Outbox(
    storeOf(() => browser),
    new Slip(storage),
  );
  await next.begin();
  await next.put(SESSION, facts('x'));
  expect(await kept(next)).toEqual(['z', 'y', 'x']);
  expect(new Slip(storage).left()).toEqual([]);
});

it('keeps what the database does not take in the slip, until the shop has it', async () => {
  const storage = plainStorage();
  const broken = {
    open: () => {
      throw new Error('no databases here');
    },
  } as unknown as IDBFactory;
  const outbox = new Outbox(
    storeOf(() => broken),
    new Slip(storage),
  );
  await expect(outbox.put(SESSION, facts('z', 'y'))).rejects.toThrow('no databases here');
  outbox.close();
  expect(outbox.homeless).toBe(2);
  expect(new Slip(storage).left().map(({ fact: { id } }) => id)).toEqual(['z', 'y']);
  await expect(outbox.markSaved(SESSION, ['z'], 1, 0)).rejects.toThrow('no databases here');
  expect(new Slip(storage).left().map(({ fact: { id } }) => id)).toEqual(['y']);
});

it('lets nothing that stands in the slip, whatever it is, keep a page from starting', async () => {
  const storage = plainStorage();
  storage.setItem('fibula.slip', '{ not json');
  const browser = new IDBFactory();
  const outbox = new Outbox(
    storeOf(() => browser),
    new Slip(storage),
  );
  await outbox.begin();
  await outbox.put(SESSION, facts('z'));
  expect(await kept(outbox)).toEqual(['z']);
});
