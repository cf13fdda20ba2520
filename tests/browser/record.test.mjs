// Correcting the record, limits, wires, and work on many at once.
import assert from 'node:assert/strict';
import { accessibility, frames, pageTest } from './rig.mjs';

const BARE = 'Cordon bare for 0.50 m between trees 1 and 2';

async function openExample(page, name = 'short-stock') {
  await page.locator(`[data-example="examples/${name}.json"]`).click();
  await page.waitForSelector('.trees [data-tree]');
}

// Findings of one rule are told together; all of them are asked for.
async function findings(page) {
  await frames(page, 2);
  const closed = page.locator('.group-more [aria-expanded="false"]');
  while (await closed.count()) await closed.first().click();
  return page.locator('.finding .said').allInnerTexts();
}

async function has(page, words) {
  return (await findings(page)).some((said) => said.includes(words));
}

async function chooseByList(page, name) {
  const list = page.locator('.part-list');
  if (!(await list.evaluate((e) => e.open))) await list.locator('summary').click();
  await list.getByRole('button', { name }).click();
}

async function type(page, field, text) {
  const input = page.locator(`[data-field="${field}"] input`);
  await input.fill(text);
  await input.press('Enter');
  await frames(page, 2);
}

pageTest('a corrected length changes what is found, as one step', {}, async ({ page }) => {
  await openExample(page);
  assert.ok(await has(page, BARE));
  await page.locator('[data-act="correct"]').check();
  await page.waitForSelector('.stage.correcting');
  assert.match(await page.locator('.record-strip').innerText(), /no work for the crew/);
  await chooseByList(page, /^leader 2 of 2, tree 1/);
  const length = page.locator('.part-card [data-field="measure-length"]');
  const before = await length.locator('input').inputValue();

  await type(page, 'measure-length', 'long');
  assert.match(await length.locator('[role="alert"]').innerText(), /no length/i);
  await type(page, 'measure-length', '25 m');
  assert.match(await length.locator('[role="alert"]').innerText(), /25.00 m is refused|25\.00 m.*accepted/);
  assert.equal(await page.locator('[data-act="undo"]').isDisabled(), true);

  await type(page, 'measure-length', '120 cm');
  assert.equal(await length.locator('input').inputValue(), '1.20 m');
  assert.equal(await has(page, BARE), false);
  assert.equal(await page.locator('[data-act="undo"]').getAttribute('title'), 'Undo: correcting the record');

  await page.locator('[data-act="undo"]').click();
  await frames(page, 2);
  assert.equal(await length.locator('input').inputValue(), before);
  assert.ok(await has(page, BARE));
  assert.equal(await page.locator('[data-act="undo"]').isDisabled(), true);

  // One Escape closes the card, one lets go, one ends the correcting.
  await page.locator('.stage').focus();
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.part-card').count(), 0);
  assert.equal(await page.locator('.stage .chosen').count() > 0, true);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.stage .chosen').count(), 0);
  assert.equal(await page.locator('.stage.correcting').count(), 1);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.stage.correcting').count(), 0);
  assert.equal(await page.locator('[data-act="correct"]').isChecked(), false);
});

pageTest('the record gains a tree and an upright by a press, and work waits', {}, async ({ page }) => {
  await openExample(page);
  await page.locator('[data-act="correct"]').check();
  const trees = () => page.locator('.trees [data-tree]').count();
  const uprights = () => page.locator('[data-figure="figure-uprights"]').innerText();
  const before = await trees();
  const stage = await page.locator('.stage').boundingBox();
  await page.mouse.click(stage.x + stage.width * 0.56, stage.y + 80);
  await page.locator('[data-act="record-tree-here"]').click();
  await frames(page, 3);
  assert.equal(await trees(), before + 1);
  assert.equal(await page.locator('.part-card').getAttribute('aria-label'), 'leader, tree 9');
  await page.locator('[data-act="undo"]').click();
  await frames(page, 2);
  assert.equal(await trees(), before);

  const count = Number(await uprights());
  await chooseByList(page, /^leader 1 of 2, tree 1/);
  await page.locator('.stage').focus();
  await page.keyboard.press('b');
  await frames(page, 2);
  assert.equal(Number(await uprights()), count + 1);
  // Typed places go for those who can't press the wall.
  await type(page, 'add-tree', '5.2 m');
  assert.equal(await page.locator('.part-card').getAttribute('aria-label'), 'leader, tree 9');
  // The remedies are work, and none is offered now.
  assert.equal(await page.locator('[data-remedy]').first().isVisible(), false);
});

pageTest('a limit clears a finding, and its reset brings it back', {}, async ({ page }) => {
  await openExample(page);
  assert.ok(await has(page, BARE));
  await page.locator('[data-act="limits-and-site"]').click();
  const limit = page.locator('[data-limit="gap_max_mm"]');
  assert.equal(await limit.locator('input').inputValue(), '150 mm');
  await type(page, 'gap_max_mm', '2 m');
  assert.match(await limit.locator('[role="alert"]').innerText(), /2000 mm is refused; 0 mm to 1000 mm is accepted/);
  assert.ok(await has(page, BARE));
  await type(page, 'gap_max_mm', '60 cm');
  assert.equal(await limit.locator('input').inputValue(), '600 mm');
  assert.equal(await has(page, BARE), false);
  await limit.locator('[data-act="limit-reset"]').click();
  assert.ok(await has(page, BARE));
  assert.equal(await limit.locator('input').inputValue(), '150 mm');
  await page.locator('[data-act="undo"]').click();
  assert.equal(await has(page, BARE), false);
  await page.locator('[data-act="limits-reset"]').click();
  assert.ok(await has(page, BARE));

  await type(page, 'setting-latitude', '91');
  const latitude = page.locator('[data-field="setting-latitude"]');
  assert.match(await latitude.locator('[role="alert"]').innerText(), /91° is refused; −90° to 90° is accepted/);
  await type(page, 'setting-latitude', '−33,9');
  assert.equal(await latitude.locator('input').inputValue(), '−33.9°');
  // In feet and inches the same limits are typed in inches.
  await page.locator('[data-act="lengths"]').click();
  assert.equal(await limit.locator('input').inputValue(), '5.906 in');
  await type(page, 'gap_max_mm', '10');
  assert.equal(await limit.locator('input').inputValue(), '10 in');
});

pageTest('tipping the whole row is one step', {}, async ({ page }) => {
  await openExample(page);
  const due = 'uprights are not tipped';
  assert.ok(await has(page, due));
  await page.locator('#view-many > summary').click();
  await page.locator('[data-field="many-what"]').selectOption('sweep-tip');
  assert.equal(await page.locator('[data-field="many-number"]').inputValue(), '20 %');
  const count = () => page.locator('[data-field="many-count"]').innerText();
  assert.match(await count(), /^\d+ shoots on 8 trees$/);
  await page.locator('[data-field="many-whom"]').selectOption('many-numbers');
  await page.locator('[data-field="many-to"]').fill('2');
  assert.match(await count(), /^\d+ shoots on 2 trees$/);
  await page.locator('[data-field="many-whom"]').selectOption('many-row');
  await page.locator('[data-act="many-do"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.notice').innerText(), /Done on \d+ shoots/);
  assert.equal(await has(page, due), false);
  assert.equal(await page.locator('[data-act="undo"]').getAttribute('title'), 'Undo: work on many at once');
  await page.locator('[data-act="undo"]').click();
  assert.ok(await has(page, due));
  assert.equal(await page.locator('[data-act="undo"]').isDisabled(), true);
});

pageTest('wires are work of the time that is looked at', {}, async ({ page }) => {
  await openExample(page);
  await page.locator('#view-wires > summary').click();
  await page.waitForSelector('.wire-list li');
  const wires = () => page.locator('.wire-list li').count();
  const before = await wires();
  await type(page, 'wire-add', '0.52 m');
  assert.match(await page.locator('[data-field="wire-add"] [role="alert"]').innerText(), /0.52 m is refused/);
  await type(page, 'wire-add', '0.75 m');
  assert.equal(await wires(), before + 1);
  await page.locator('[data-wire="500"] [data-act="wire-cover"]').click();
  await frames(page, 2);
  assert.match(await page.locator('[data-wire="500"]').innerText(), /plastic-covered/);
  assert.equal(await page.locator('[data-wire="500"] [data-act="wire-down"]').count(), 0);
  await page.locator('#view-wires .done [data-act="wire-take-back"]').last().click();
  await frames(page, 2);
  assert.equal(await wires(), before);
});

pageTest('a part’s works ask for their numbers on its card', {}, async ({ page }) => {
  await openExample(page);
  await chooseByList(page, /^upright 1 of 3, tree 1/);
  await page.locator('[data-act="act-tip"]').click();
  await page.waitForSelector('.ask input:focus');
  await page.keyboard.type('95');
  await page.keyboard.press('Enter');
  assert.match(await page.locator('.ask [role="alert"]').innerText(), /95 % is refused; 1 % to 90 %/);
  await page.locator('.ask input').fill('30 %');
  await page.keyboard.press('Enter');
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), /tipped by 30 %/);
  await page.locator('[data-act="act-take-back"]').click();
  await frames(page, 2);
  assert.equal(await page.locator('.part-card .done').count(), 0);

  // A kept bud is moved by keys.
  await chooseByList(page, /^leader 1 of 2, tree 1/);
  await page.locator('.stage').focus();
  await page.keyboard.press('b');
  await page.keyboard.press('Alt+ArrowRight');
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), /another bud kept/);

  // A whole tree is taken out and stock is put in its place.
  await page.locator('.part-list select').selectOption('2');
  await page.locator('[data-act="act-remove-tree"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.part-card').innerText(), /Dead or missing/);
  await page.locator('[data-act="act-take-back"]').click();
  await page.locator('[data-act="act-replace-tree"]').click();
  await page.locator('.ask input').first().fill('1.9 m');
  await page.locator('.ask [data-act="do"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), /replaced, stock of 1.90 m/);
});

pageTest('nothing of it shuts anyone out', {}, async ({ page }) => {
  await openExample(page);
  for (const view of ['wires', 'many', 'limits']) await page.locator(`#view-${view} > summary`).click();
  await chooseByList(page, /^upright 1 of 3, tree 1/);
  await page.locator('[data-act="act-tip"]').click();
  await frames(page, 2);
  assert.deepEqual(await accessibility(page), []);
  await page.locator('[data-act="correct"]').check();
  await frames(page, 2);
  assert.deepEqual(await accessibility(page), []);
});
