/** What a command says: its answer on standard output, or one line on standard error and exit 2. */

// A reader that has seen enough (`| head`) closes the pipe: that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exitCode = error.code === 'EPIPE' ? 0 : 1;
});

/** Writes `answer` as JSON. */
export const print = (answer: unknown): void => printText(JSON.stringify(answer, null, 2));

export const printText = (text: string): void => {
  process.stdout.write(`${text}\n`);
};

/** Ends the command: it cannot use what it was given. */
export function fail(line: string): never {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`);
  process.exit(2);
}
