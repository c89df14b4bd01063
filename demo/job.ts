/** One session in the demo: the skier as they truly are, and the three stations' rooms for it. */
import { randomBytes } from 'node:crypto';
import { plan } from '../core/index.ts';
import type { Kind, Payload, Plan, Side } from '../core/index.ts';
import type { BootModel } from './boots.ts';
import type { Leg } from './leg.ts';
import type { Person } from './people.ts';
import type { Random } from './random.ts';
import type { Room } from './room.ts';
import type { Shop, ShopRole } from './shop.ts';

export interface Skier {
  readonly person: Person;
  readonly boots: BootModel;
  readonly legs: Readonly<Record<Side, Leg>>;
  /** Standard deviation of one gap reading on this skier, mm: how still they stand. */
  readonly errorSdMm: number;
  /** How wide they stand when gliding straight, mm. */
  readonly stanceWidthMm: number;
}

export class Job {
  readonly session = randomBytes(16).toString('hex');
  readonly ticket: string;
  readonly skier: Skier;
  readonly random: Random;
  readonly #shop: Shop;
  readonly #rooms = new Map<ShopRole, Promise<Room>>();
  readonly #ids: string[] = [];
  #planned: { readonly facts: number; readonly plan: Plan } | null = null;

  constructor(shop: Shop, ticket: string, skier: Skier, random: Random) {
    this.#shop = shop;
    this.ticket = ticket;
    this.skier = skier;
    this.random = random;
  }

  get desk() {
    return this.#shop.desk;
  }

  /** This session at one station, once all that was written so far has come there. */
  async at(role: ShopRole): Promise<Room> {
    const entered = this.#rooms.get(role) ?? this.#shop[role].enter(this.session);
    this.#rooms.set(role, entered);
    const room = await entered;
    await room.knows(this.#ids);
    return room;
  }

  /** Resolves once it is on disk. */
  async write<K extends Kind>(role: ShopRole, kind: K, payload: Payload<K>): Promise<void> {
    const room = await this.at(role);
    this.#ids.push(await room.add(role, kind, payload));
  }

  /** The same entry by several stations, none of which has seen another's. */
  async writeAtOnce<K extends Kind>(roles: readonly ShopRole[], kind: K, payload: Payload<K>): Promise<void> {
    const rooms = await Promise.all(roles.map((role) => this.at(role)));
    this.#ids.push(...(await Promise.all(rooms.map((room, i) => room.add(roles[i]!, kind, payload)))));
  }

  /** Worked out again only when there are more facts: they are only ever added. */
  async plan(role: ShopRole = 'desk'): Promise<Plan> {
    const { facts } = await this.at(role);
    if (this.#planned?.facts !== facts.length) this.#planned = { facts: facts.length, plan: plan(facts) };
    return this.#planned.plan;
  }

  async leave(): Promise<void> {
    for (const room of await Promise.all(this.#rooms.values())) room.close();
    this.#rooms.clear();
  }
}
