// The built page starts, served and as one file, and asks nothing of anybody.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { base, oneFile, pageTest } from './rig.mjs';

pageTest('the served page starts without fault', {}, async ({ page }) => {
  await page.waitForLoadState('networkidle');
  assert.match(await page.title(), /Cordonry/);
});

(oneFile ? pageTest : test.skip)('the page in one file starts without fault', { path: oneFile }, async ({ page }) => {
  await page.waitForLoadState('networkidle');
  assert.match(await page.title(), /Cordonry/);
});

test('the server states the page’s policy', async () => {
  const answer = await fetch(base);
  assert.equal(answer.status, 200);
  const policy = answer.headers.get('content-security-policy');
  assert.match(policy, /script-src 'self' 'wasm-unsafe-eval';/);
  const [, meta] = (await answer.text()).match(/Content-Security-Policy" content="([^"]*)"/);
  assert.equal(policy, `${meta}; frame-ancestors 'none'`);
});
