/**
 * Makes a fresh clone ready to run: packages installed, pages built. What is ready already is left alone, which
 * takes some milliseconds. Plain JavaScript on Node's own modules, since it runs before anything is installed.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

const LOCK = join(ROOT, 'package-lock.json');
/** In node_modules, so that it goes when they go. */
const INSTALLED = join(ROOT, 'node_modules', '.fibula-installed');
/**
 * What is built: from what, and the file that is there when it is. The hash of its sources is kept beside it and not in
 * it: a build empties its own directory.
 */
const PAGES = {
  name: 'pages',
  sources: ['stations', 'core', 'vite.config.ts', 'package-lock.json'],
  config: 'vite.config.ts',
  result: join('stations', 'index.html'),
};
const SERVER = {
  name: 'server',
  sources: ['server', 'core', 'vite-server.config.ts', 'package-lock.json'],
  config: 'vite-server.config.ts',
  result: 'server.js',
};
/** The server's program once it is built, from the top of the project. */
export const BUILT_SERVER = join('build', SERVER.result);
const LEAST_NODE = [20, 19];

/** What a person can mend; shown as one line, without a stack. */
export class NotReady extends Error {}

/**
 * @param {{ build?: boolean }} [what] `build: false` when no server is going to be started
 * @returns {Promise<void>} throws `NotReady`
 */
export async function ready({ build = true } = {}) {
  checkNode(process.versions.node);
  await install();
  if (!build) return;
  await buildIfOld(PAGES);
  await readyServer();
}

/** The server alone, as its sources are now. @returns {Promise<void>} throws `NotReady` */
export const readyServer = () => buildIfOld(SERVER);

/** @param {string} version like 20.19.0 */
function checkNode(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [leastMajor = 0, leastMinor = 0] = LEAST_NODE;
  if (major < leastMajor || (major === leastMajor && minor < leastMinor))
    throw new NotReady(
      `Fibula needs Node ${LEAST_NODE.join('.')} or newer, and this is ${version}. Get it at https://nodejs.org.`,
    );
}

async function install() {
  const wanted = hashOf([LOCK]);
  if (read(INSTALLED) === wanted) return;
  if (!isInstalled()) {
    say('Installing packages (npm ci); this takes a minute, once.');
    const npm = process.env.npm_execpath;
    const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
    const code =
      npm && /\.c?js$/.test(npm)
        ? await run(process.execPath, [npm, ...args])
        : await run('npm', args, { shell: process.platform === 'win32' });
    if (code !== 0)
      throw new NotReady('The packages could not be installed; npm says above why. Is there a network?');
  }
  writeFileSync(INSTALLED, wanted);
}

/** Whether somebody ran npm here already, and what it installed is what the lockfile says. */
function isInstalled() {
  const hidden = read(join(ROOT, 'node_modules', '.package-lock.json'));
  if (hidden === null) return false;
  const there = JSON.parse(hidden).packages;
  return Object.entries(JSON.parse(readFileSync(LOCK, 'utf8')).packages).every(
    ([path, { version, optional, devOptional }]) =>
      path === '' ||
      there[path]?.version === version ||
      (there[path] === undefined && (optional || devOptional)),
  );
}

/** @param {typeof PAGES} what */
async function buildIfOld({ name, sources, config, result }) {
  const mark = join(ROOT, 'build', `.fibula-${name}`);
  const wanted = hashOf(sources.flatMap((source) => filesUnder(join(ROOT, source))));
  if (read(mark) === wanted && existsSync(join(ROOT, 'build', result))) return;
  say(`Building the ${name}.`);
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  if ((await run(process.execPath, [vite, 'build', '--config', config, '--logLevel', 'warn'])) !== 0)
    throw new NotReady(`The ${name} could not be built; vite says above why.`);
  mkdirSync(dirname(mark), { recursive: true });
  writeFileSync(mark, wanted);
}

/** @param {string[]} paths @returns {string} a hash of their names and contents */
function hashOf(paths) {
  const hash = createHash('sha256');
  for (const path of paths) {
    const content = readFileSync(path);
    hash.update(`${path.slice(ROOT.length)} ${content.length}\n`).update(content);
  }
  return hash.digest('hex');
}

/** @param {string} path @returns {string[]} the files at and under it, in one order everywhere */
function filesUnder(path) {
  const entries = readdir(path);
  if (entries === null) return existsSync(path) ? [path] : [];
  return entries.flatMap((name) => filesUnder(join(path, name)));
}

/** @param {string} path @returns {string[] | null} null when it is no directory */
function readdir(path) {
  try {
    return readdirSync(path).sort();
  } catch {
    return null;
  }
}

/** @param {string} path @returns {string | null} */
const read = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : null);

/** @param {string} text */
const say = (text) => process.stderr.write(`${text}\n`);

/**
 * Standard output belongs to the program that is started afterwards, so all goes to standard error.
 * @param {string} command @param {string[]} args @param {{ shell?: boolean }} [options]
 * @returns {Promise<number>} exit code
 */
function run(command, args, options = {}) {
  return new Promise((resolve, reject) => {
    spawn(command, args, { ...options, cwd: ROOT, stdio: ['ignore', 2, 2] })
      .once('error', (error) => reject(new NotReady(`${command} could not be started: ${error.message}`)))
      .once('exit', (code) => resolve(code ?? 1));
  });
}
