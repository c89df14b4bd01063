/** Run a program of this project and let its output through. */
import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's top folder. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** @param {string} name a program that one of the packages brings */
export const packaged = (name) => join(ROOT, 'node_modules', '.bin', name);

/**
 * Resolves to the exit code; a program ended by a signal counts as 1. Nothing is asked on standard input.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 * @param {'inherit' | 2} [output] 2 where what this program prints is for another one: to standard error
 * @returns {Promise<number>}
 */
export const run = (program, args, env = process.env, output = 'inherit') =>
  new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: ROOT, stdio: ['ignore', output, 'inherit'], env });
    child.on('error', (error) => reject(new Error(`cannot run ${program}: ${error.message}`)));
    child.on('close', (code) => resolve(code ?? 1));
  });
