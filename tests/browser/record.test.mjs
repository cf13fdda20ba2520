// Correcting the record, limits, wires, and work on many at once.
import assert from 'node:assert/strict';
import { example, findings, matter, named, openMatters, part } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

const BARE = ['cordon-gap', { where: 'between', length: '0.50 m', left: 1, right: 2 }];

const openExample = (page) => example(page, 'short-stock.json');

// Findings of one matter are told together; all of them are asked for.
async function has(page, rule, args) {
  await frames(page, 2);
  await openMatters(page);
  const told = await findings(page, rule).locator('.said').allInnerTexts();
  return told.some((text) => like(`finding-${rule}`, args).test(text));
}

async function chooseByList(page, key, args) {
  const list = page.locator('.part-list');
  if (!(await list.evaluate((e) => e.open))) await list.locator('summary').click();
  await part(page, key, args).click();
}

async function type(page, field, text) {
  const input = page.locator(`[data-field="${field}"] input`);
  await input.fill(text);
  await input.press('Enter');
  await frames(page, 2);
}

pageTest('a length is taken by season, a total says how it is shared out, and a likely slip is told', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('[data-act="correct"]').check();
  await page.waitForSelector('.stage.correcting');
  await chooseByList(page, 'name-upright', { number: 7, of: 8, tree: 1 });
  const length = page.locator('.part-card [data-field="measure-length"] input');
  const notice = page.locator('.notice');
  await type(page, 'measure-length', '0,54 + 48 cm');
  assert.equal(await length.inputValue(), '1.02 m');
  assert.equal(await notice.count(), 0);
  await type(page, 'measure-length', '2.04 m');
  assert.match(await notice.textContent(), like('record-shared', { lengths: '1.08 m + 0.96 m' }));
  await type(page, 'measure-length', '11.25');
  assert.match(await notice.textContent(), like('walk-doubt', { what: 'length', value: '11.25 m', low: '0.02 m', high: '4.00 m', meant: '1.125 m' }));
  assert.equal(await length.inputValue(), '11.25 m');
});

pageTest('a place is told and corrected off the tape, and what follows from the coming leaf stands beside it', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('[data-act="correct"]').check();
  await page.waitForSelector('.stage.correcting');
  const follows = page.locator('.record-strip .follows');
  assert.match(await follows.textContent(), like('import-leaf-follows', { age: 3, last: 2 }));
  await chooseByList(page, 'name-upright', { number: 3, of: 8, tree: 1 });
  const card = page.locator('.part-card');
  const field = card.locator('[data-field="measure-place"]');
  const along = () => card.locator('.along-parent').textContent();
  const [before, was] = [parseFloat(await field.locator('input').inputValue()), await along()];
  assert.equal(await card.locator('[data-field="measure-at"]').count(), 0);
  assert.match(was, like('record-along'));
  await type(page, 'measure-place', `${(before + 0.1).toFixed(3)} m`);
  assert.ok(Math.abs(parseFloat(await field.locator('input').inputValue()) - before - 0.1) < 0.003);
  assert.notEqual(await along(), was);
  // A place off the leader is refused with what the tape has there.
  await type(page, 'measure-place', '9 m');
  const range = like('refusal-correct-part', { what: say('measure-place'), value: '9.00 m' });
  assert.match(await field.locator('[role="alert"]').innerText(), range);
});

pageTest('a corrected length changes what is found, as one step', {}, async ({ page }) => {
  await openExample(page);
  assert.ok(await has(page, ...BARE));
  await page.locator('[data-act="correct"]').check();
  await page.waitForSelector('.stage.correcting');
  assert.match(await page.locator('.record-strip').innerText(), like('record-what'));
  await chooseByList(page, 'name-leader', { number: 2, of: 2, tree: 1 });
  const length = page.locator('.part-card [data-field="measure-length"]');
  const before = await length.locator('input').inputValue();

  await type(page, 'measure-length', 'long');
  assert.match(await length.locator('[role="alert"]').innerText(), like('field-no-length', { text: 'long' }));
  await type(page, 'measure-length', '25 m');
  assert.match(await length.locator('[role="alert"]').innerText(), like('refusal-correct-part', { what: say('measure-length'), value: '25.00 m' }));
  assert.equal(await page.locator('[data-act="undo"]').isDisabled(), true);

  await type(page, 'measure-length', '120 cm');
  assert.equal(await length.locator('input').inputValue(), '1.20 m');
  assert.equal(await has(page, ...BARE), false);
  assert.equal(await page.locator('[data-act="undo"]').getAttribute('title'), say('undo-step', { step: say('step-correct') }));

  await page.locator('[data-act="undo"]').click();
  await frames(page, 2);
  assert.equal(await length.locator('input').inputValue(), before);
  assert.ok(await has(page, ...BARE));
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
  assert.match(await page.locator('.part-card').getAttribute('aria-label'), named('name-leader', { of: 1, tree: 9 }));
  await page.locator('[data-act="undo"]').click();
  await frames(page, 2);
  assert.equal(await trees(), before);

  const count = Number(await uprights());
  await chooseByList(page, 'name-leader', { number: 1, of: 2, tree: 1 });
  await page.locator('.stage').focus();
  await page.keyboard.press('b');
  await frames(page, 2);
  assert.equal(Number(await uprights()), count + 1);
  // Typed places go for those who can't press the wall.
  await type(page, 'add-tree', '5.2 m');
  assert.match(await page.locator('.part-card').getAttribute('aria-label'), named('name-leader', { of: 1, tree: 9 }));
  // The remedies are work, and none is offered now.
  assert.equal(await page.locator('[data-remedy]').first().isVisible(), false);
});

pageTest('a limit clears a finding, and its reset brings it back', {}, async ({ page }) => {
  await openExample(page);
  assert.ok(await has(page, ...BARE));
  await page.locator('#view-limits > summary').click();
  const limit = page.locator('[data-limit="gap_max_mm"]');
  assert.equal(await limit.locator('input').inputValue(), '150 mm');
  await type(page, 'gap_max_mm', '2 m');
  assert.match(await limit.locator('[role="alert"]').innerText(), like('refusal-correct-row', { what: say('limit-gap_max_mm'), value: '2000 mm', low: '0 mm', high: '1000 mm' }));
  assert.ok(await has(page, ...BARE));
  await type(page, 'gap_max_mm', '60 cm');
  assert.equal(await limit.locator('input').inputValue(), '600 mm');
  assert.equal(await has(page, ...BARE), false);
  await limit.locator('[data-act="limit-reset"]').click();
  assert.ok(await has(page, ...BARE));
  assert.equal(await limit.locator('input').inputValue(), '150 mm');
  await page.locator('[data-act="undo"]').click();
  assert.equal(await has(page, ...BARE), false);
  await page.locator('[data-act="limits-reset"]').click();
  assert.ok(await has(page, ...BARE));

  await type(page, 'setting-latitude', '91');
  const latitude = page.locator('[data-field="setting-latitude"]');
  assert.match(await latitude.locator('[role="alert"]').innerText(), like('refusal-correct-row', { what: say('setting-latitude'), value: '91°', low: '−90°', high: '90°' }));
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
  const due = 'tipping-due';
  assert.ok(await has(page, due));
  await page.locator('#view-many > summary').click();
  await page.locator('[data-field="many-what"]').selectOption('sweep-tip');
  assert.equal(await page.locator('[data-field="many-number"]').inputValue(), '20 %');
  const count = () => page.locator('[data-field="many-count"]').innerText();
  const shoots = async () => Number((await count()).match(/\d+/)[0]);
  assert.match(await count(), whole('many-count', { shoots: await shoots(), trees: 8 }));
  await page.locator('[data-field="many-whom"]').selectOption('many-numbers');
  await page.locator('[data-field="many-to"]').fill('2');
  assert.match(await count(), whole('many-count', { shoots: await shoots(), trees: 2 }));
  await page.locator('[data-field="many-whom"]').selectOption('many-row');
  const all = await shoots();
  await page.locator('[data-act="many-do"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.notice').innerText(), like('said-many', { shoots: all }));
  await page.locator('#view-many > summary').click();
  assert.equal(await has(page, due), false);
  assert.equal(await page.locator('[data-act="undo"]').getAttribute('title'), say('undo-step', { step: say('step-many') }));
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
  assert.match(await page.locator('[data-field="wire-add"] [role="alert"]').innerText(), like('refusal-wire-near', { value: '0.52 m' }));
  await type(page, 'wire-add', '0.75 m');
  assert.equal(await wires(), before + 1);
  await page.locator('[data-wire="500"] [data-act="wire-cover"]').click();
  await frames(page, 2);
  assert.match(await page.locator('[data-wire="500"]').innerText(), like('wire-is-plastic'));
  assert.equal(await page.locator('[data-wire="500"] [data-act="wire-down"]').count(), 0);
  await page.locator('#view-wires .done [data-act="wire-take-back"]').last().click();
  await frames(page, 2);
  assert.equal(await wires(), before);
});

pageTest('a part’s works ask for their numbers on its card', {}, async ({ page }) => {
  await openExample(page);
  await chooseByList(page, 'name-upright', { number: 1, of: 3, tree: 1 });
  await page.locator('[data-act="act-tip"]').click();
  await page.waitForSelector('.ask input:focus');
  await page.keyboard.type('95');
  await page.keyboard.press('Enter');
  assert.match(await page.locator('.ask [role="alert"]').innerText(), like('refusal-tip', { value: '95 %', low: '1 %', high: '90 %' }));
  await page.locator('.ask label input').fill('30 %');
  await page.keyboard.press('Enter');
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), like('work-tip', { share: '30 %' }));
  await page.locator('[data-act="act-take-back"]').click();
  await frames(page, 2);
  assert.equal(await page.locator('.part-card .done').count(), 0);

  // A kept bud is moved by keys.
  await chooseByList(page, 'name-leader', { number: 1, of: 2, tree: 1 });
  await page.locator('.stage').focus();
  await page.keyboard.press('b');
  await page.keyboard.press('Alt+ArrowRight');
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), like('work-move-bud'));

  // A whole tree is taken out and stock is put in its place.
  await page.locator('.part-list select').selectOption('2');
  await page.locator('[data-act="act-remove-tree"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.part-card').innerText(), like('tree-lost'));
  await page.locator('[data-act="act-take-back"]').click();
  await page.locator('[data-act="act-replace-tree"]').click();
  await page.locator('.ask input').first().fill('1.9 m');
  await page.locator('.ask [data-act="do"]').click();
  await frames(page, 2);
  assert.match(await page.locator('.part-card .done').innerText(), like('work-replace-tree', { length: '1.90 m' }));
});

pageTest('nothing of it shuts anyone out', {}, async ({ page }) => {
  await openExample(page);
  for (const view of ['wires', 'many', 'limits']) {
    await page.locator(`#view-${view} > summary`).click();
    await page.locator(`#view-${view} .view-body > *`).first().waitFor();
    assert.deepEqual(await accessibility(page), [], view);
  }
  await page.locator('#view-limits > summary').click();
  await chooseByList(page, 'name-upright', { number: 1, of: 3, tree: 1 });
  await page.locator('[data-act="act-tip"]').click();
  await frames(page, 2);
  assert.deepEqual(await accessibility(page), []);
  await page.locator('[data-act="correct"]').check();
  await frames(page, 2);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('whether last year’s growth had been tipped is told where the record is corrected, and later harvests follow', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  const crops = () => page.locator('.year .year-crop').allTextContents();
  const before = await crops();
  await page.locator('[data-act="correct"]').check();
  const choice = page.getByLabel(say('import-tipped'));
  assert.equal(await choice.inputValue(), '');
  await choice.selectOption('yes');
  await frames(page, 2);
  const tipped = await crops();
  assert.notDeepEqual(tipped, before);
  await choice.selectOption('no');
  await frames(page, 2);
  assert.deepEqual(await crops(), before, 'taken as whole');
  for (const [answer, crop] of [['yes', tipped], ['', before]]) {
    await page.locator('[data-act="undo"]').click();
    await frames(page, 2);
    assert.equal(await choice.inputValue(), answer);
    assert.deepEqual(await crops(), crop);
  }
});

pageTest('the coming leaf is corrected in the record: a step of its own, refused where recorded wood contradicts', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('[data-act="correct"]').check();
  const field = page.locator('[data-field="measure-leaf"] input');
  assert.equal(await field.inputValue(), '3');
  await field.fill('2');
  await field.press('Enter');
  const wrong = page.locator('[data-field="measure-leaf"] .wrong');
  assert.match(await wrong.innerText(), like('refusal-correct-leaf', { value: '2', low: 3, why: 'grown', leaf: 2 }));
  await field.fill('4');
  await field.press('Enter');
  await frames(page, 2);
  assert.equal(await wrong.count(), 0);
  assert.equal(await page.locator('[data-act="undo"]').getAttribute('title'), say('undo-step', { step: say('step-correct-leaf') }));
  // The work of the leaf that is no more stays, and is named where the work is.
  await page.locator('[data-act="correct"]').uncheck();
  await matter(page, 'work-void').first().waitFor({ state: 'attached' });
  await page.locator('[data-act="undo"]').click();
  await matter(page, 'work-void').first().waitFor({ state: 'detached' });
  await page.locator('[data-act="correct"]').check();
  assert.equal(await field.inputValue(), '3');
});
