/** What the screens' tests lean on: a browser that starts, and an axe that finds what is wrong. */
import { createServer } from 'node:http';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';

const page = (body: string) =>
  `<!doctype html><html lang="en"><title>A page</title><main><h1>A page</h1>${body}</main></html>`;

let server: Server;
let browser: Browser;
beforeAll(async () => {
  server = createServer((request, response) => {
    const body = request.url === '/bad' ? '<img src="x.png">' : '<p>Nothing wrong.</p>';
    response.writeHead(200, {
      'content-type': 'text/html',
      'content-security-policy': "default-src 'none'",
    });
    response.end(page(body));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await new Promise((resolve) => server.close(resolve));
});

async function violationsAt(path: string) {
  const tab = await browser.newPage();
  try {
    await tab.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`);
    return await axeViolations(tab);
  } finally {
    await tab.close();
  }
}

it('finds a picture without words, under the strictest content policy', async () => {
  expect(await violationsAt('/bad')).toEqual([expect.stringContaining('image-alt')]);
});

it('finds nothing where nothing is wrong', async () => {
  expect(await violationsAt('/good')).toEqual([]);
});
