// The page can be installed, and then needs no network.
import assert from 'node:assert/strict';
import { example, onDevice, saved } from './desk.mjs';
import { pageTest } from './rig.mjs';

pageTest('the browser finds nothing that keeps the page from being installed, and every icon is as large as it says', {}, async ({ page, context, base }) => {
  await page.locator('.start').waitFor();
  await onDevice(page);
  const session = await context.newCDPSession(page);
  const { errors } = await session.send('Page.getAppManifest');
  assert.deepEqual(errors, []);
  // A profile that is gone with its window can't install anything, whatever the page.
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  assert.deepEqual(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito'), []);
  const address = await page.locator('link[rel=manifest]').evaluate((link) => link.href);
  const manifest = await (await fetch(address)).json();
  for (const name of ['id', 'name', 'short_name', 'start_url', 'scope', 'background_color', 'theme_color']) assert.ok(manifest[name], name);
  assert.equal(manifest.display, 'standalone');
  assert.equal(new URL(manifest.start_url, address).href, new URL('./', base).href);
  const drawn = await page.evaluate(
    (icons) =>
      Promise.all(
        icons.map(async ({ src, sizes, purpose = 'any' }) => {
          const image = new Image();
          image.src = src;
          await image.decode();
          // What may be cut round must be painted to its corners.
          const canvas = Object.assign(document.createElement('canvas'), { width: 64, height: 64 });
          const pen = canvas.getContext('2d');
          pen.drawImage(image, 0, 0, 64, 64);
          return { size: `${image.naturalWidth}x${image.naturalHeight}`, sizes, purpose, corner: pen.getImageData(0, 0, 1, 1).data[3] };
        }),
      ),
    manifest.icons.map((icon) => ({ ...icon, src: new URL(icon.src, address).href })),
  );
  for (const { size, sizes, purpose, corner } of drawn) {
    if (sizes !== 'any') assert.equal(size, sizes);
    if (purpose === 'maskable') assert.equal(corner, 255);
  }
  const has = (wanted, sizes) => drawn.some((icon) => icon.purpose === wanted && icon.sizes === sizes);
  assert.ok(has('any', '192x192') && has('any', '512x512') && has('maskable', '512x512'));
});

pageTest('without a network the page comes, and so do the rows on this device', {}, async ({ page, context, allow }) => {
  await example(page);
  await saved(page);
  await onDevice(page);
  await context.setOffline(true);
  // Whether there is a newer build can't be asked.
  allow(/ERR_INTERNET_DISCONNECTED/);
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.kept li .picture svg').waitFor();
  await Promise.all([page.waitForEvent('download'), page.locator('[data-act=all-save]').click()]);
});
