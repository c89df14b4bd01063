/** Who may import whom. */
import { isBuiltin } from 'node:module';
import { posix } from 'node:path';
import type { SourceFile } from './files.ts';
import { importsOf } from './imports.ts';

/** Package names by where package.json lists them. */
export interface Packages {
  readonly dependencies: readonly string[];
  readonly devDependencies: readonly string[];
}

interface Wall {
  /** Rooms that it may import beside itself. */
  readonly rooms: readonly string[];
  /** Named packages, any of `dependencies`, or any that package.json names. */
  readonly libraries: readonly string[] | 'dependencies' | 'all';
  readonly node: boolean;
}

const CORE = ['core ground', 'core record', 'core maths', 'core guide', 'core photo', 'core door'];

const WALLS: Readonly<Record<string, Wall>> = {
  'core ground': { rooms: [], libraries: ['zod'], node: false },
  'core record': { rooms: ['core ground'], libraries: ['zod'], node: false },
  'core maths': { rooms: ['core ground'], libraries: ['zod'], node: false },
  'core guide': { rooms: ['core ground', 'core record', 'core maths'], libraries: ['zod'], node: false },
  'core photo': { rooms: ['core ground'], libraries: [], node: false },
  'core door': { rooms: CORE, libraries: [], node: false },
  server: { rooms: ['core door'], libraries: 'dependencies', node: true },
  'stations kit': {
    rooms: ['core door'],
    // zod for its one switch: a page's content policy forbids the code it would make from text.
    libraries: ['svelte', 'yjs', 'y-websocket', 'y-protocols', 'lib0', 'zod', 'uqr', 'jsbarcode'],
    node: false,
  },
  'a station': { rooms: ['core door', 'stations kit'], libraries: ['svelte'], node: false },
  demo: { rooms: ['core door'], libraries: 'dependencies', node: true },
  tests: { rooms: [...CORE, 'server', 'demo'], libraries: 'all', node: true },
  // What a station draws and says can be asked without a browser, so its plain functions may be imported.
  'tests of stations': {
    rooms: [...CORE, 'server', 'demo', 'tests', 'plain stations kit'],
    libraries: 'all',
    node: true,
  },
  configuration: { rooms: [], libraries: 'all', node: true },
};

/** The room a file lies in; null where no file may lie. Stations come as `stations/<app>`. */
export function roomOf(path: string): string | null {
  const [top, second, ...rest] = path.split('/');
  switch (top) {
    case 'core':
      if (second === 'index.ts') return 'core door';
      if (rest.length === 0)
        return /^(units|frame|wire|bounds)\.ts$/.test(second ?? '') ? 'core ground' : null;
      return ['record', 'maths', 'guide', 'photo'].includes(second ?? '') ? `core ${second}` : null;
    case 'server':
    case 'demo':
      return top;
    case 'stations':
      // The files beside the stations are the entrance, which asks which station this is: one more app.
      if (rest.length === 0) return 'stations/';
      return second === 'kit' ? 'stations kit' : `stations/${second}`;
    case 'tests':
      // Storms and faults are ridden out by the stations' own session code.
      return ['stations', 'storm', 'faults'].includes(second ?? '') ? 'tests of stations' : 'tests';
    default:
      return second === undefined ? 'configuration' : null;
  }
}

const packageOf = (specifier: string): string =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');

/** Why this bare import may not stand in a file behind this wall; null when it may. */
function wrongPackage(specifier: string, wall: Wall, packages: Packages): string | null {
  if (specifier.startsWith('node:')) return wall.node ? null : 'has no business with Node';
  if (isBuiltin(specifier)) return `write node:${specifier}`;
  const name = packageOf(specifier);
  const { dependencies, devDependencies } = packages;
  if (![...dependencies, ...devDependencies].includes(name)) return `${name} is not in package.json`;
  if (wall.libraries === 'all') return null;
  const allowed = wall.libraries === 'dependencies' ? dependencies : wall.libraries;
  if (!allowed.includes(name)) return `may use ${allowed.join(', ') || 'no library'}`;
  return dependencies.includes(name) ? null : `${name} is needed to run: it belongs into dependencies`;
}

/** Why a file of room `from` may not import the file at `target`; null when it may. */
function wrongRoom(from: string, wall: Wall, target: string): string | null {
  const to = roomOf(target);
  if (to === null) return 'lies in no room';
  if (to === from || wall.rooms.includes(to)) return null;
  const plain = /\.(ts|js)$/.test(target) && !/\.svelte\.(ts|js)$/.test(target);
  if (to === 'stations kit' && plain && wall.rooms.includes('plain stations kit')) return null;
  if (CORE.includes(to) && wall.rooms.includes('core door')) return 'enter core by core/index.ts';
  return `${from} may not import ${to}`;
}

/** One line for each import that breaks a wall: file, line, what, why. */
export function brokenWalls(files: readonly SourceFile[], packages: Packages): string[] {
  return files.flatMap((file) => {
    const from = roomOf(file.path);
    if (from === null) return [`${file.path}: lies in no room`];
    const wall = WALLS[from] ?? WALLS['a station']!;
    return importsOf(file).flatMap(({ specifier, line }) => {
      const at = `${file.path}:${line}`;
      if (specifier === null)
        return wall.node ? [] : [`${at}: a computed import: nobody can say what it brings in`];
      const plain = specifier.replace(/\?.*$/, '');
      const why = /^\.{1,2}(\/|$)/.test(plain)
        ? wrongRoom(from, wall, posix.normalize(posix.join(posix.dirname(file.path), plain)))
        : wrongPackage(plain, wall, packages);
      return why === null ? [] : [`${at}: imports ${specifier}: ${why}`];
    });
  });
}
