/** HTTP by hand: the status and the body of whatever comes back. */
export interface Answer {
  readonly status: number;
  readonly cookie: string | undefined;
  // What a test reads of it, it says itself.
  // eslint-disable-next-line @typescript-eslint/no-explicit-any
  readonly body: any;
}

export const asker =
  (url: () => string) =>
  async (method: string, path: string, cookie?: string, body?: unknown): Promise<Answer> => {
    const response = await fetch(url() + path, {
      method,
      headers: {
        origin: url(),
        ...(cookie ? { cookie } : {}),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    return {
      status: response.status,
      cookie: response.headers.getSetCookie()[0]?.split(';')[0],
      body: await response.json(),
    };
  };
