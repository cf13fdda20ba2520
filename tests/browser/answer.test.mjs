// A call: the client's table, three marks, advice, a link; the client changes one thing and sends it back; it is compared and taken.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { example, passOn, saved } from './desk.mjs';
import { printed, printer } from './prints.mjs';
import { accessibility, open, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const TABLE = readFileSync(new URL('../../examples/measured-40.csv', import.meta.url), 'utf8').split('\n').slice(0, 60).join('\n');

pageTest('a marked row is sent, changed elsewhere, and what comes back is taken one by one', {}, async ({ page, browser }) => {
  await page.locator('.start textarea').fill(TABLE);
  await page.getByRole('button', { name: say('way-paste-do') }).click();
  await page.locator('[data-act=import-use]').click();
  await page.locator('.stage [data-tree]').first().waitFor();
  const view = page.locator('#view-marks');
  await view.locator('summary').click();
  const box = await page.locator('#wall').boundingBox();
  for (const [n, x] of [0.25, 0.4, 0.6].entries()) {
    await view.locator('[data-mark-kind=mark-note]').click();
    await page.mouse.click(box.x + x * box.width, box.y + 0.3 * box.height);
    await view.locator('[data-field=mark-text]').fill(`mark ${n + 1}`);
    await page.keyboard.press('Enter');
  }
  await view.locator('[data-mark-line]').nth(2).waitFor();
  // Work is advised and taken.
  await view.locator('summary').click();
  await page.locator('[data-act=draft]').click();
  await page.locator('[data-act=draft-take]:not([aria-disabled])').click();
  await page.locator('.draft').waitFor({ state: 'detached' });
  await view.locator('summary').click();
  await saved(page);
  await passOn(page);
  const link = await page.locator('#pass-on-link').inputValue();
  await page.locator('[data-act=pass-on-close]').click();

  // The client, who has a device of their own.
  const client = await open({ path: link, browser });
  const theirs = client.page;
  await theirs.locator('.stage .mark').nth(2).waitFor();
  await theirs.locator('#view-marks summary').click();
  await theirs.locator('[data-mark-line] [data-act=mark-remove]').first().click();
  await theirs.locator('.row-name').fill('The client’s own name');
  await theirs.locator('.row-name').press('Enter');
  await saved(theirs);
  await passOn(theirs);
  const back = await theirs.locator('#pass-on-link').inputValue();
  assert.deepEqual(client.faults, []);
  await client.close();

  // Meanwhile something else is changed here.
  await view.locator('[data-mark-line]').nth(1).locator('[data-act=mark-change]').click();
  await view.locator('[data-field=mark-change]').fill('mark 2, seen again');
  await view.locator('[data-field=mark-change]').press('Tab');
  await view.getByText('seen again').waitFor();
  await passOn(page);
  await page.locator('[data-field=answer-link]').fill(back);
  const changes = page.locator('[data-change]');
  await changes.nth(1).waitFor();
  assert.equal(await changes.count(), 2);
  const known = page.locator('.answer', { hasText: say('answer-known') });
  assert.equal(await known.count(), 1);
  const place = await page.locator('.answer-list').boundingBox();
  assert.ok(place.y > 0 && place.y < page.viewportSize().height - 40, `in sight: ${place.y}`);
  const texts = await changes.allTextContents();
  assert.match(texts[0], like('answer-name', { name: 'The client’s own name' }));
  assert.match(texts[1], /mark 1/);
  assert.deepEqual(await accessibility(page), []);
  // Where it is shows on a strip of the row; a press goes there, and what came back is still there.
  assert.equal(await page.locator('.answer-strip .overview-soon').count(), 1);
  assert.equal(await changes.nth(0).locator('[data-act=answer-go]').count(), 0, 'a name is nowhere on the wall');
  await changes.nth(1).locator('[data-act=answer-go]').click();
  await page.locator('#pass-on-link').waitFor({ state: 'detached' });
  await passOn(page);
  await changes.nth(1).waitFor();
  // One of the two is taken.
  await changes.nth(1).locator('input').uncheck();
  await page.locator('[data-act=answer-take]').click();
  await page.locator('[data-is=taken]').waitFor();
  // What is left of it stays at hand, unticked.
  assert.equal(await changes.count(), 1);
  assert.match(await changes.first().textContent(), /mark 1/);
  await page.getByText(say('answer-rest', { count: 1 })).waitFor();
  assert.equal(await changes.first().locator('input').isChecked(), false);
  await page.locator('[data-field=answer-link]').fill('');
  await page.locator('[data-field=answer-link]').fill(back);
  await changes.first().waitFor();
  assert.equal(await changes.count(), 1, 'what was taken is here already');
  await page.locator('[data-act=pass-on-close]').click();
  assert.equal(await page.locator('.row-name').inputValue(), 'The client’s own name');
  assert.equal(await page.locator('.stage .mark').count(), 3, 'the mark that was not given up stands');
  // The report is printed, with the marks, under the name that the client gave.
  await printer(page);
  await view.locator('summary').click();
  await page.locator('[data-act=report]').click();
  const print = page.locator('dialog.sheet[open] .report [data-act=report-print]');
  const report = await printed(page, () => print.click(), 60_000);
  const told = report.pages.map((p) => p.words).join(' ').replace(/\s+/g, '');
  for (const text of ['The client’s own name', 'mark 2, seen again', 'mark 3', say('report-advised')]) {
    assert.ok(told.includes(text.replace(/\s+/g, '')), text);
  }
  await page.keyboard.press('Escape');
  await page.locator('dialog.sheet[open]').waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await page.waitForFunction(() => document.querySelector('.row-name').value !== 'The client’s own name');
});

pageTest('what is no answer is refused with its reason, and of another device all is told', {}, async ({ page }) => {
  await example(page, 'lost-tree.json');
  await passOn(page);
  const field = page.locator('[data-field=answer-link]');
  await field.fill('#no-link');
  await page.locator('.answer [role=alert]').waitFor();
  const file = page.locator('.answer input[type=file]');
  const plan = readFileSync(new URL('../../examples/lost-tree.json', import.meta.url), 'utf8');
  await file.setInputFiles({ name: 'back.json', mimeType: 'application/json', buffer: Buffer.from(plan) });
  await page.locator('[data-is=same]').waitFor();
  const other = plan.replace(/"name": "[^"]*"/, '"name": "<i>another</i>"');
  await file.setInputFiles({ name: 'back.json', mimeType: 'application/json', buffer: Buffer.from(other) });
  await page.locator('[data-change]').first().waitFor();
  assert.equal(await page.locator('.answer', { hasText: say('answer-unknown') }).count(), 1);
  assert.equal(await page.locator('.answer i').count(), 0);
});
