/** A no of the server in words, which are fetched when the first one comes: most stations never hear one. */
interface Said {
  readonly code: string;
  readonly text: string;
}

/** `unreachable` is said where no answer came at all, and where the words cannot be had either. */
export async function noInWords(no: Said, unreachable: string): Promise<string> {
  if (no.code === 'unreachable') return unreachable;
  return await import('./words/answers.ts').then(
    ({ sayNo }) => sayNo(no, unreachable),
    () => unreachable,
  );
}
