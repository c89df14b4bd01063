/** What a page draws between an entry and the picture that shows it: one state of the facts, whatever drew it anew. */
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { WebSocket } from 'ws';
import type { Fact } from '../../core/index.ts';
import { Session } from '../../stations/kit/session.ts';
import type { FactDraft } from '../../stations/kit/session.ts';
import { DeviceStore } from '../../stations/kit/store/device.ts';
import { LastKnown } from '../../stations/kit/store/known.ts';
import { Outbox } from '../../stations/kit/store/outbox.ts';
import { Slip } from '../../stations/kit/store/slip.ts';
import { plainStorage } from '../helpers/storage.ts';

/** Pictures that the page waits for. */
let pictures: (() => void)[];
let drawing: boolean;
let session: Session;

const OPENING = { kind: 'session.opened', ticket: '1-1', clientRef: 'c-1', service: 'cuffs' } as const;
const HEALTH = { kind: 'health.asked', outcome: 'proceed' } as const;
/** Adds one entry, and gives it. */
function add(draft: FactDraft): Fact {
  const added = session.add(draft);
  if (!added.ok) throw new Error(JSON.stringify(added.refusal));
  return added.facts[0]!;
}

beforeEach(() => {
  pictures = [];
  drawing = false;
  vi.stubGlobal('IDBKeyRange', IDBKeyRange);
  vi.stubGlobal('WebSocket', WebSocket);
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no server')));
  vi.stubGlobal('document', { hidden: false });
  vi.stubGlobal('requestAnimationFrame', (draw: () => void) => pictures.push(draw));
  const disk = new IDBFactory();
  const device = new DeviceStore(undefined, () => disk);
  const role = 'desk';
  session = new Session('0'.repeat(32), 1, {
    me: {
      ...{ device: 'a'.repeat(20), number: 1, name: 'Desk', roles: [role], boot: 1, generation: 1 },
      ...{ protocol: 1, plain: true, shop: { name: '', timeZone: 'UTC' } },
    },
    role,
    outbox: new Outbox(device, new Slip(plainStorage())),
    known: new LastKnown(device),
    // Nobody listens there.
    url: 'ws://127.0.0.1:9/sync',
    isDrawn: () => drawing,
    mayWrite: () => true,
  });
});
afterEach(async () => {
  session.close();
  await nextPicture();
  vi.unstubAllGlobals();
});

/** As a picture would read it. */
function drawn<T>(read: () => T): T {
  drawing = true;
  const value = read();
  drawing = false;
  return value;
}
async function nextPicture(): Promise<void> {
  for (const draw of pictures.splice(0)) draw();
  await new Promise((resolve) => setTimeout(resolve));
}

it('is the state before the entry until the page is told of it, and the state after it from then on', async () => {
  const opening = add(OPENING);
  await nextPicture();
  const { plan } = session;
  expect(drawn(() => session.facts)).toEqual([opening]);
  const health = add(HEALTH);
  expect(drawn(() => session.facts)).toEqual([opening]);
  expect(drawn(() => session.plan)).toBe(plan);
  await nextPicture();
  expect(drawn(() => session.facts)).toEqual([opening, health]);
  expect(drawn(() => session.plan)).not.toBe(plan);
  // What undo can take back is there until the picture that leaves it out.
  expect(drawn(() => session.undoable)).toEqual(health);
  session.undo();
  expect(drawn(() => session.undoable)).toEqual(health);
  await nextPicture();
  expect(drawn(() => session.undoable)).toBeNull();
});

it('keeps no act waiting: what a person does goes by the facts as they are now', async () => {
  const opening = add(OPENING);
  await nextPicture();
  expect(drawn(() => session.facts)).toEqual([opening]);
  const health = add(HEALTH);
  expect(session.facts).toEqual([opening, health]);
  expect(session.undo()).toEqual([health]);
  expect(session.undoable).toBeNull();
});
