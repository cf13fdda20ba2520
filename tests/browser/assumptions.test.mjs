// The rules of a scheme and the values of the model: each with its range and source, set, refused and put back; and the lessons.
import assert from 'node:assert/strict';
import { example } from './desk.mjs';
import { pageTest } from './rig.mjs';
import { say } from './words.mjs';

pageTest('a value of the model is set, refused outside its range, and put back', {}, async ({ page }) => {
  await example(page);
  const view = page.locator('#view-assumptions');
  await view.locator('summary').click();
  const set = view.locator('[data-limit=set]');
  const field = set.locator('input');
  assert.equal(await field.inputValue(), '31 %');
  assert.ok((await set.locator('.source').textContent()).includes(say('parameter-source-set')));
  await field.fill('25 %');
  await field.press('Enter');
  await set.locator('[data-act=limit-reset]').waitFor();
  await field.fill('90 %');
  await field.press('Enter');
  const wrong = set.locator('.wrong');
  await wrong.waitFor();
  for (const part of [say('parameter-set'), '90 %', '20 %', '40 %']) {
    assert.ok((await wrong.textContent()).includes(part), part);
  }
  await field.press('Escape');
  assert.equal(await field.inputValue(), '25 %');
  await view.locator('[data-act=assumptions-reset]').click();
  await page.waitForFunction(() => document.querySelector('#view-assumptions [data-limit=set] input').value === '31 %');
  assert.ok(await view.locator('[data-act=assumptions-reset]').isDisabled());
});

pageTest('a lesson opens with its question and how often it holds, and its rules differ by scheme', {}, async ({ page }) => {
  const lessons = page.locator('[data-example^="examples/lessons/"]');
  assert.equal(await lessons.count(), 12);
  await example(page, 'lessons/renewal-a-fifth-or-a-quarter.json');
  assert.match(await page.locator('.row-note').textContent(), /Question: .*\d+ of 40/s);
  const view = page.locator('#view-assumptions');
  await view.locator('summary').click();
  const share = view.locator('[data-limit=renew_share] input');
  assert.equal(await share.inputValue(), '20 %');
  // What is done or not is ticked.
  const done = view.locator('[data-limit] input[type=checkbox]').first();
  assert.ok(await done.isChecked());
  await done.uncheck();
  await page.locator('[data-act=undo]').click();
  await page.waitForFunction(() => document.querySelector('#view-assumptions [data-limit] input[type=checkbox]').checked);
  await view.locator('[data-field=standing]').uncheck();
  await share.waitFor({ state: 'detached' });
  await page.locator('[data-act=undo]').click();
  await share.waitFor();
});

pageTest('what each share of renewal costs is worked out beside the page, and follows the plan', {}, async ({ page }) => {
  await example(page);
  const view = page.locator('#view-assumptions');
  await view.locator('summary').click();
  const rows = view.locator('.shares tbody tr');
  await rows.nth(4).waitFor({ timeout: 60_000 });
  const cells = () => rows.evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  const told = await cells();
  assert.deepEqual(told.map((row) => row[0]), [10, 8, 6, 5, 4].map((of) => say('shares-of', { of })));
  for (const row of told) for (const cell of row.slice(1)) assert.match(cell, /^\d/);
  // The more is cut, the younger the wood.
  const oldest = told.map((row) => Number(row[3]));
  assert.deepEqual(oldest, [...oldest].sort((a, b) => b - a));
  // Another crop of every leaf: they are asked anew.
  const set = view.locator('[data-limit=set] input');
  await set.fill('25 %');
  await set.press('Enter');
  await page.waitForFunction((before) => {
    const cell = document.querySelector('.shares tbody td');
    return cell && cell.textContent !== before;
  }, told[0][1], { timeout: 60_000 });
  assert.ok(Number((await cells())[0][1]) < Number(told[0][1]));
});
