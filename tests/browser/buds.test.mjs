// Buds counted in winter: typed by keys alone, what they tell of the crop as they are typed, one step that undo takes back.
import assert from 'node:assert/strict';
import { example, phone } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like } from './words.mjs';

const sheet = (page) => page.locator('dialog.sheet[open] .bud-count');
const told = (page) => sheet(page).locator('[role=status]').innerText();
const cell = (page, n) => sheet(page).locator(`[data-cell="${n}"]`);

async function open(page) {
  await page.click('[data-act=hand-out]');
  await page.locator('[data-act=count-buds]').click();
  await sheet(page).waitFor();
  await frames(page, 2);
}

/** Twenty spurs by keys alone: three fruit buds each, one of them dead, and three flowers in the first bud of a tree. Gives the presses. */
async function type(page) {
  let presses = 0;
  for (let spur = 0; spur < 20; spur += 1) {
    for (const key of ['3', 'Enter', '1', 'Enter', ...(spur % 4 === 0 ? ['3'] : []), 'Enter']) {
      await page.keyboard.press(key);
      presses += 1;
    }
  }
  return presses;
}

async function leave(page) {
  await page.keyboard.press('Escape');
  await page.locator('dialog.sheet .hand-out').first().waitFor({ state: 'detached' });
}

const crop = async (page) => (await told(page)).match(like('counted-crop'))?.[0];

pageTest('twenty spurs are typed by keys, tell the coming crop beside the model’s, and are one step', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await open(page);
  assert.equal(await sheet(page).locator('table').count(), 5);
  assert.deepEqual(await accessibility(page), []);
  assert.match(await told(page), like('count-none'));
  assert.equal(await cell(page, 0).evaluate((e) => e === document.activeElement), true);
  // Two minutes at a press a second.
  assert.ok((await type(page)) <= 120);
  // Behind the last field stands what keeps it all.
  assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'count-keep');
  assert.match(await told(page), like('counted-buds'));
  assert.match(await told(page), /33\s%/);
  assert.match(await told(page), like('counted-no-tips'));
  const before = await crop(page);
  assert.ok(before);
  // What can't be is named with its range, and is not kept.
  await cell(page, 1).fill('4');
  await cell(page, 1).press('Enter');
  const wrong = sheet(page).locator('.wrong:not(:empty)');
  assert.match(await wrong.innerText(), like('refusal-count'));
  await page.click('[data-act=count-keep]');
  assert.equal(await sheet(page).count(), 1);
  await cell(page, 1).fill('3');
  await cell(page, 1).press('Enter');
  assert.equal(await wrong.count(), 0);
  assert.notEqual(await crop(page), before);
  await page.click('[data-act=count-keep]');
  await sheet(page).waitFor({ state: 'detached' });
  // It stands there when it is opened again, and goes by one press.
  await leave(page);
  await open(page);
  assert.equal(await cell(page, 1).inputValue(), '3');
  assert.equal(await cell(page, 3).inputValue(), '3');
  await page.click('[data-act=count-remove]');
  await sheet(page).waitFor({ state: 'detached' });
  await leave(page);
  await page.keyboard.press('Control+z');
  await open(page);
  assert.equal(await cell(page, 59 - 2).inputValue(), '3', 'undo gives all of it back');
  await leave(page);
  await page.keyboard.press('Control+z');
  await open(page);
  assert.equal(await cell(page, 0).inputValue(), '', 'undo takes all of it');
  assert.match(await told(page), like('count-none'));
});

pageTest('Escape keeps what was counted; on a telephone nothing runs over the side', phone, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await open(page);
  const wide = await sheet(page).evaluate((e) => [...e.querySelectorAll('table')].every((t) => t.getBoundingClientRect().right <= innerWidth));
  assert.ok(wide);
  await cell(page, 0).fill('2');
  await leave(page);
  await open(page);
  assert.equal(await cell(page, 0).inputValue(), '2');
  assert.match(await told(page), like('counted-buds'));
});
