/** What a page does that no page of ours may do: errors, broken policy, and traffic to elsewhere. */
import type { Page } from 'playwright';

export interface Watch {
  /** One line for each thing that went wrong since the watch began or was last asked. */
  take(): string[];
}

/** `home` is the server's origin; anything asked of another host is reported. */
export function watch(page: Page, home: string): Watch {
  const { host } = new URL(home);
  let seen: string[] = [];
  const address = (url: string, what: string) => {
    const at = new URL(url);
    if (!['data:', 'blob:', 'about:'].includes(at.protocol) && at.host !== host)
      seen.push(`${what} to another host: ${url}`);
  };
  // A broken content security policy is told to the console as an error.
  page.on('console', (message) => {
    if (message.type() === 'error') seen.push(`console: ${message.text()} (${message.location().url})`);
  });
  page.on('pageerror', (error) => seen.push(`uncaught: ${error.stack ?? error.message}`));
  page.on('request', (request) => address(request.url(), 'request'));
  page.on('websocket', (socket) => address(socket.url(), 'socket'));
  return {
    take: () => {
      const all = seen;
      seen = [];
      return all;
    },
  };
}
