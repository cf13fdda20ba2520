// A plan that is passed on: as a link, as a code that a camera reads, and what becomes of a link that is no good.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import jsQR from 'jsqr';
import { example, onDevice, passOn, phone, saved } from './desk.mjs';
import { accessibility, open, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const link = (page) => page.locator('#pass-on-link').inputValue();
const named = (page) => page.locator('.row-name').inputValue();

/** The text of the plan as it is saved to a file. */
async function file(page) {
  await page.locator('.doings .more summary').click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-act=save-plan]').click()]);
  return readFile(await download.path(), 'utf8');
}

/** Which copies were sent is no part of what is compared. */
const without = (text) => ({ ...JSON.parse(text), sent: undefined });

pageTest('a link opens in another profile as the same plan, and is gone from the address then', {}, async ({ page, browser }) => {
  await example(page);
  await saved(page);
  const own = await file(page);
  await passOn(page);
  assert.deepEqual(await accessibility(page), []);
  const address = await link(page);
  assert.match(address, /#plan-1\..*\.end$/);
  assert.match(await page.locator('[data-is=length]').textContent(), like('pass-on-length'));
  const there = await open({ path: address, browser });
  await there.page.waitForSelector('.stage [data-tree]');
  assert.deepEqual(without(await file(there.page)), without(own));
  assert.equal(new URL(there.page.url()).hash, '', 'loaded again it is not opened again');
  await saved(there.page);
  await there.page.reload();
  await there.page.waitForSelector('.stage [data-tree]');
  await there.page.locator('.doings .more summary').click();
  await there.page.locator('[data-act=other-row]').click();
  await there.page.waitForSelector('.start');
  assert.equal(await there.page.locator('.kept li').count(), 1, 'one row came of it');
  assert.deepEqual(there.faults, []);
  await there.close();
});

pageTest('a link that comes over an open row becomes a row of its own', {}, async ({ page }) => {
  await example(page, 'two-cordons.json');
  await passOn(page);
  const address = await link(page);
  await page.locator('[data-act=pass-on-close]').click();
  await page.locator('.row-name').fill('Mine');
  await page.locator('.row-name').blur();
  await saved(page);
  await page.evaluate((address) => (location.href = address), address);
  await page.waitForFunction(() => document.querySelector('.row-name').value !== 'Mine');
  await saved(page);
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.waitForSelector('.start');
  assert.equal(await page.getByRole('button', { name: /Mine/ }).count() > 0, true, 'what was there is still there');
});

pageTest('a damaged or cut link is refused with its reason, and nothing is lost', {}, async ({ page }) => {
  await example(page);
  await page.locator('.row-name').fill('Mine');
  await page.locator('.row-name').blur();
  await saved(page);
  await passOn(page);
  const address = await link(page);
  await page.locator('[data-act=pass-on-close]').click();
  const at = address.length - 40;
  const other = address[at] === 'A' ? 'B' : 'A';
  const cases = [
    [address.slice(0, at), 'refusal-link-cut'],
    [address.slice(0, at) + other + address.slice(at + 1), 'refusal-link-damaged'],
    [address.replace('plan-1.', 'plan-7.'), 'refusal-link-form'],
  ];
  for (const [bad, key] of cases) {
    await page.evaluate((bad) => (location.href = bad), bad);
    await page.locator('.notice.grave', { hasText: like(key) }).waitFor();
    assert.equal(await named(page), 'Mine');
    assert.equal(new URL(page.url()).hash, '');
  }
  // At the loading of the page too: the row that was open is there.
  await page.goto('about:blank');
  await page.goto(cases[1][0]);
  await page.locator('.notice.grave', { hasText: like('refusal-link-damaged') }).waitFor();
  assert.equal(await named(page), 'Mine');
});

pageTest('a camera reads the code', {}, async ({ page }) => {
  await example(page);
  await passOn(page);
  const pixels = await page.evaluate(async () => {
    const svg = document.querySelector('.qr svg').cloneNode(true);
    const side = 4 * svg.viewBox.baseVal.width;
    svg.setAttribute('width', side);
    svg.setAttribute('height', side);
    const url = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(svg)], { type: 'image/svg+xml' }));
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = new OffscreenCanvas(side, side).getContext('2d');
    canvas.drawImage(image, 0, 0, side, side);
    const { data } = canvas.getImageData(0, 0, side, side);
    // One of four bytes: it is black and white.
    let grey = '';
    for (let i = 0; i < data.length; i += 4) grey += data[i] > 127 ? '1' : '0';
    return { side, grey };
  });
  const data = new Uint8ClampedArray(pixels.grey.length * 4).fill(255);
  [...pixels.grey].forEach((bit, i) => bit === '0' && data.fill(0, 4 * i, 4 * i + 3));
  assert.equal(jsQR(data, pixels.side, pixels.side)?.data, await link(page));
});

pageTest('a link is copied, and taken where a table is pasted', { context: { permissions: ['clipboard-read', 'clipboard-write'] } }, async ({ page }) => {
  await example(page);
  await passOn(page);
  await page.locator('[data-act=pass-on-copy]').click();
  await page.getByText(say('pass-on-copied')).waitFor();
  const address = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(address, await link(page));
  await page.locator('[data-act=pass-on-close]').click();
  const name = await named(page);
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start textarea').fill(` ${address} is the row\n`);
  await page.getByRole('button', { name: say('way-paste-do') }).click();
  await page.waitForSelector('.stage [data-tree]');
  assert.equal(await named(page), name);
});

pageTest('on a telephone the code is wide enough, and the sheet does not run over', phone, async ({ page }) => {
  await example(page);
  await passOn(page);
  const { width } = await page.locator('.qr svg').boundingBox();
  assert.ok(width > 280, `${width} px`);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
});

pageTest('a long link warns, and has no code', { path: '?bench=300x10' }, async ({ page }) => {
  await page.waitForSelector('.stage [data-tree]');
  await passOn(page);
  const length = (await link(page)).length;
  assert.ok(length >= 8000 && length <= 32_000, `${length} characters`);
  assert.match(await page.locator('[data-is=long]').textContent(), like('pass-on-long'));
  assert.equal(await page.locator('.qr').count(), 0);
});

pageTest('past the longest link the file is offered', { path: '?bench=1000x12' }, async ({ page }) => {
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=pass-on]').click();
  await page.locator('.pass-on .refusal', { hasText: like('refusal-link-long') }).waitFor();
  assert.equal(await page.locator('#pass-on-link').count(), 0);
  await Promise.all([page.waitForEvent('download'), page.locator('[data-act=pass-on-save]').click()]);
});

pageTest('without a network a link is opened all the same', {}, async ({ page, context }) => {
  await example(page);
  const name = await named(page);
  await passOn(page);
  const address = await link(page);
  await page.locator('[data-act=pass-on-close]').click();
  await onDevice(page);
  await page.locator('.row-name').fill('Mine');
  await page.locator('.row-name').blur();
  await saved(page);
  await context.setOffline(true);
  await page.goto('about:blank');
  await page.goto(address);
  await page.waitForFunction((name) => document.querySelector('.row-name')?.value === name, name);
  assert.equal(new URL(page.url()).hash, '');
});
