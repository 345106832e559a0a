// A browser that is slowed and told nothing else, for what is measured. A browser that a test drives reports every part that a
// page takes up, which costs the page a good deal; no reader's browser does.

import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { CHROMIUM, FLAGS } from './harness.mjs';

// `page` opens an address on a phone's screen, slowed; it gives what runs a function in the page, and what shuts it. `close` ends
// the browser.
export async function unwatched(slowed) {
  const profile = mkdtempSync(path.join(tmpdir(), 'unwatched-'));
  const program = spawn(CHROMIUM, [...FLAGS, '--headless', '--hide-scrollbars', '--remote-debugging-pipe', `--user-data-dir=${profile}`, 'about:blank'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] });
  const ended = new Promise((done) => { program.on('exit', done); });
  const [, , , into, from] = program.stdio;
  const asked = new Map();
  let last = 0;
  let come = '';
  // Each message ends with a zero.
  from.setEncoding('utf8').on('data', (text) => {
    const messages = (come + text).split('\0');
    come = messages.pop();
    for (const message of messages.map((one) => JSON.parse(one))) {
      const answer = asked.get(message.id);
      asked.delete(message.id);
      if (message.error) answer?.refuse(new Error(message.error.message));
      else answer?.give(message.result);
    }
  });
  ended.then((code) => { for (const { refuse } of asked.values()) refuse(new Error(`the browser ended with ${code}`)); });
  const send = (method, params, sessionId) => new Promise((give, refuse) => {
    last += 1;
    asked.set(last, { give, refuse });
    into.write(`${JSON.stringify({ id: last, method, params, sessionId })}\0`);
  });

  async function page(address) {
    const { browserContextId } = await send('Target.createBrowserContext', {});
    const { targetId } = await send('Target.createTarget', { url: 'about:blank', browserContextId });
    const { sessionId } = await send('Target.attachToTarget', { targetId, flatten: true });
    const tell = (method, params) => send(method, params, sessionId);
    await tell('Emulation.setDeviceMetricsOverride', { width: 390, height: 844, deviceScaleFactor: 1, mobile: false });
    await tell('Emulation.setCPUThrottlingRate', { rate: slowed });
    const run = async (what, ...given) => {
      const expression = `(${what})(${given.map((one) => JSON.stringify(one)).join(', ')})`;
      const { result, exceptionDetails: wrong } = await tell('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true });
      if (wrong) throw new Error(wrong.exception?.description ?? wrong.text);
      return result.value;
    };
    await tell('Page.navigate', { url: address });
    // Opened, or the page before it would be asked.
    while (!await run((address) => document.readyState === 'complete' && location.href === address, address)) await new Promise((on) => { setTimeout(on, 2); });
    return { run, shut: () => send('Target.disposeBrowserContext', { browserContextId }) };
  }
  async function close() {
    await send('Browser.close', {});
    await ended;
    // Its helpers go a little later than itself.
    rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
  return { page, close };
}
