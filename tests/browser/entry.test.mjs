// Ways to a row that begin with nothing: a made row, an empty one, and a walk with a tape by telephone.
import assert from 'node:assert/strict';
import { findings, phone } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

// Pictures to look at, where SHOTS names a folder.
const shots = process.env.SHOTS;
const shot = async (page, name) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png` });
};

/** The button of that text. */
const button = (page, key) => page.getByRole('button', { name: say(key, { tree: 1 }) });

pageTest('the short form makes a row', {}, async ({ page }) => {
  await shot(page, 'start');
  await page.click('[data-way=make]');
  await page.fill('#made-trees', 'ten');
  await page.fill('#made-spacing', '1,8');
  await page.fill('#made-angle', '5');
  await button(page, 'way-make-go').click();
  // What is wrong is said beside each field, what was typed stays, and the first wrong one has the focus.
  assert.match(await page.textContent('#wrong-trees'), like('refusal-made', { field: 'trees', value: /.ten./, low: '1', high: '1000' }));
  assert.match(await page.textContent('#wrong-angle'), like('refusal-made', { field: 'angle', value: '5°', low: '30°', high: '90°' }));
  assert.equal(await page.textContent('#wrong-spacing'), '');
  assert.equal(await page.inputValue('#made-trees'), 'ten');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'made-trees');
  await shot(page, 'make-refused');
  assert.deepEqual(await accessibility(page), []);
  await page.fill('#made-trees', '12');
  await page.fill('#made-angle', '60');
  // Shown the other way, a length is the same length.
  await page.getByLabel(say('made-lengths-feet')).check();
  assert.equal(await page.inputValue('#made-spacing'), '5 ft 11 in');
  assert.equal(await page.inputValue('#made-row-spacing'), '10 ft');
  await page.fill('#made-spacing', `5'6"`);
  await page.fill('#made-unevenness', '0');
  await button(page, 'way-make-go').click();
  await page.waitForSelector('.stage [data-tree="1"]', { state: 'attached' });
  assert.match(await page.textContent('.row-note'), like('made-note'));
  assert.match(await page.textContent('[data-figure=figure-fill]'), /100 %/);
  assert.equal(await page.locator('.finding.now').count(), 0);
  await shot(page, 'made');
});

pageTest('an empty row opens, and the first tree is put in', {}, async ({ page }) => {
  await page.click('[data-way=empty]');
  await page.fill('#made-length', '12');
  await button(page, 'way-empty-go').click();
  await page.waitForSelector('.no-trees');
  await shot(page, 'empty');
  assert.deepEqual(await accessibility(page), []);
  await page.fill('#first-tree', '99');
  await page.click('.no-trees button');
  assert.match(await page.textContent('.notice'), like('refusal-tree-place', { value: '99.00 m', low: '−6.00 m', high: '18.00 m' }));
  await page.fill('#first-tree', '0.5');
  await page.click('.no-trees button');
  await page.waitForSelector('.stage [data-tree="1"]', { state: 'attached' });
  assert.equal(await page.locator('.no-trees').count(), 0);
  await page.click('[data-act=undo]');
  await page.waitForSelector('.no-trees');
  // Or pressed on the wall.
  const { x, y, width, height } = await page.locator('.stage').boundingBox();
  await page.mouse.click(x + width * 0.6, y + height * 0.7);
  await page.waitForSelector('.stage [data-tree="1"]', { state: 'attached' });
  await shot(page, 'empty-first');
});

/** Types into the walk's field as a finger does, and takes it. */
async function type(page, text) {
  await page.locator('#walk-field').pressSequentially(text);
  await page.tap('[data-act=walk-next]');
}

async function beginWalk(page) {
  await page.tap('[data-way=walk]');
  await shot(page, 'walk-setup');
  await button(page, 'way-walk-go').tap();
  await page.waitForSelector('#walk-field');
}

pageTest('the grower takes down ten trees by telephone and fills a gap', phone, async ({ page }) => {
  await beginWalk(page);
  await shot(page, 'walk-1');
  assert.deepEqual(await accessibility(page), []);
  // A slip: told, kept, mended.
  await type(page, '-3');
  assert.match(await page.textContent('#walk-wrong'), like('refusal-walk', { what: 'foot', tree: 1, value: '−3.00 m', low: '0.00 m' }));
  assert.equal(await page.inputValue('#walk-field'), '-3');
  await shot(page, 'walk-refused');
  await page.fill('#walk-field', '');
  await type(page, '0');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-way', { tree: 1 }));
  await shot(page, 'walk-way');
  await page.tap('[data-act=walk-right-way]');
  // The field has the focus by itself after every press.
  assert.equal(await page.evaluate(() => document.activeElement.id), 'walk-field');
  await page.keyboard.type('2');
  await page.tap('[data-act=walk-next]');
  await type(page, '24');
  for (const place of ['0.60', '0.80', '1,00', '1.20', '1.40', '1.60', '1.80']) {
    await type(page, place);
    if (place === '1.20') await shot(page, 'walk-thickness');
    if (place === '1.40') await page.tap('[data-act=walk-unmeasured]');
    else await type(page, '12');
  }
  await shot(page, 'walk-upright');
  // The page is closed half-way; the walk goes on where it was.
  await page.reload();
  await page.waitForSelector('#walk-field');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-upright', { tree: 1, number: 8 }));
  // Back takes the last answers away and gives them to be mended.
  await page.tap('[data-act=walk-back]');
  assert.equal(await page.inputValue('#walk-field'), '12');
  await page.tap('[data-act=walk-next]');
  await page.tap('[data-act=walk-next-tree]');
  await shot(page, 'walk-tree-2');
  // Trees 2 and 3 stand where they are expected and are the same.
  await page.tap('[data-act=walk-same]');
  await page.tap('[data-act=walk-same]');
  // Tree 4 ends short.
  await page.tap('[data-act=walk-next]');
  await page.tap('[data-act=walk-right-way]');
  await type(page, '5.9');
  await type(page, '20');
  for (const place of ['5.1', '5.3', '5.5', '5.7', '5.85']) {
    await type(page, place);
    await type(page, '13');
  }
  await page.tap('[data-act=walk-next-tree]');
  // Tree 5 as the first: measured again.
  await page.tap('[data-act=walk-next]');
  await page.tap('[data-act=walk-right-way]');
  await type(page, '8');
  await type(page, '24');
  for (const place of ['6.6', '6.8', '7.0', '7.2', '7.4', '7.6', '7.8']) {
    await type(page, place);
    await type(page, '12');
  }
  await page.tap('[data-act=walk-next-tree]');
  for (let tree = 6; tree <= 10; tree += 1) await page.tap('[data-act=walk-same]');
  await shot(page, 'walk-last');
  await page.tap('[data-act=walk-end]');
  await shot(page, 'walk-done');
  await page.tap('[data-act=walk-open]');
  await page.waitForSelector('.stage [data-tree="1"]', { state: 'attached' });
  assert.match(await page.textContent('.row-note'), like('walk-note', { trees: 10 }));
  await frames(page, 2);
  await shot(page, 'walk-plan');
  // The gap behind tree 4 is among the findings; the first remedy lays wood into it.
  const gap = findings(page, 'cordon-gap').first();
  const words = await gap.textContent();
  assert.match(words, like('finding-cordon-gap', { where: 'between', length: '0.60 m', left: 4, right: 5 }));
  const bare = async () => parseFloat(await page.textContent('[data-figure=figure-bare]'));
  const before = await bare();
  await gap.locator('[data-remedy]').first().tap();
  await frames(page, 2);
  const after = await bare();
  assert.ok(after < before - 0.3, `${before} m bare, then ${after} m`);
  assert.equal(await findings(page, 'cordon-gap').filter({ hasText: like('finding-cordon-gap', { where: 'between', left: 4, right: 5 }) }).count(), 0);
  await shot(page, 'walk-mended');
  // The walk is over: none is offered to go on.
  await page.tap('.doings summary');
  await page.tap('[data-act=other-row]');
  await page.waitForSelector('[data-way=walk]');
});

pageTest('a walk may ask for heights and side branches too: one press where they are as the last', phone, async ({ page }) => {
  await page.tap('[data-way=walk]');
  for (const key of ['walk-heights', 'walk-laterals']) {
    await page.getByRole('group', { name: say(key) }).getByLabel(say('walk-asked-yes')).check();
  }
  await button(page, 'way-walk-go').tap();
  await page.waitForSelector('#walk-field');
  await type(page, '0');
  await page.tap('[data-act=walk-right-way]');
  for (const number of ['1.7', '24', '0.8', '12']) await type(page, number);
  assert.match(await page.textContent('.walk h1'), like('walk-ask-height', { tree: 1, number: 1 }));
  assert.deepEqual(await accessibility(page), []);
  await type(page, '5');
  assert.match(await page.textContent('#walk-wrong'), like('walk-doubt', { what: 'height', value: '5.00 m' }));
  await page.tap('[data-act=walk-doubt-mend], [data-act=walk-doubt-meant]');
  await page.fill('#walk-field', '');
  await type(page, '2.3');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-laterals', { tree: 1, number: 1 }));
  await type(page, '4');
  await type(page, '1.1');
  await page.tap('[data-act=walk-unmeasured]');
  // As the last upright, by one press each.
  assert.equal((await page.textContent('[data-act=walk-next]')).trim(), say('walk-as-last', { value: '2.30 m' }));
  await page.tap('[data-act=walk-next]');
  assert.equal((await page.textContent('[data-act=walk-next]')).trim(), say('walk-as-last', { value: '4' }));
  // The page is closed half-way; the walk goes on where it was.
  await page.reload();
  await page.waitForSelector('#walk-field');
  await page.tap('[data-act=walk-next]');
  const so = await page.textContent('.walk-so-far');
  assert.ok(so.includes(say('walk-so-heights', { list: '2.30\u00a0m · 2.30\u00a0m' })), so);
  assert.ok(so.includes(say('walk-so-laterals', { list: '4 · 4' })), so);
  await shot(page, 'walk-heights');
});

pageTest('the walk asks about likely slips, and loses nothing that was typed', phone, async ({ page }) => {
  await beginWalk(page);
  await type(page, '0');
  await page.tap('[data-act=walk-right-way]');
  await type(page, '2');
  await type(page, '24');
  await type(page, '0.65');
  const asked = () => page.textContent('#walk-wrong');
  const so = () => page.textContent('.walk-so-far');
  // Centimetres where millimetres are asked: one press mends it.
  await type(page, '1.4');
  assert.match(await asked(), like('walk-doubt', { what: 'thickness', value: '1.4 mm', meant: '14 mm (1.4 cm)' }));
  assert.match(await page.textContent('.walk h1'), like('walk-ask-thickness', { tree: 1, number: 1 }));
  await shot(page, 'walk-doubt');
  assert.deepEqual(await accessibility(page), []);
  await page.tap('[data-act=walk-doubt-meant]');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-upright', { tree: 1, number: 2 }));
  await page.tap('[data-act=walk-back]');
  assert.equal(await page.inputValue('#walk-field'), '14');
  await page.tap('[data-act=walk-next]');
  // Backward along the tape: what is typed anew is asked about anew, and one press takes it as it stands.
  await type(page, '0.60');
  assert.match(await asked(), like('walk-doubt', { what: 'back', low: '0.65 m' }));
  await page.fill('#walk-field', '0.85');
  assert.equal(await page.locator('[data-act=walk-doubt-stands]').count(), 0);
  await page.tap('[data-act=walk-next]');
  await type(page, '12');
  await type(page, '0.75');
  assert.match(await asked(), like('walk-doubt', { what: 'back', low: '0.85 m' }));
  await page.tap('[data-act=walk-doubt-stands]');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-thickness', { tree: 1, number: 3 }));
  await type(page, '12');
  assert.match(await so(), like('walk-so-uprights', { count: 3, places: '0.65 m · 0.85 m · 0.75 m' }));
  // A number in the field is named with the button that takes it; going back and forth keeps it.
  await page.locator('#walk-field').pressSequentially('1.05');
  await page.tap('[data-act=walk-next-tree]');
  assert.match(await asked(), like('walk-left', { button: say('walk-next-thickness') }));
  await page.tap('[data-act=walk-back]');
  assert.equal(await page.inputValue('#walk-field'), '12');
  await page.tap('[data-act=walk-next]');
  assert.equal(await page.inputValue('#walk-field'), '1.05');
  await page.tap('[data-act=walk-next]');
  await type(page, '12');
  await page.tap('[data-act=walk-next-tree]');
  await page.locator('#walk-field').pressSequentially('1.5');
  await page.tap('[data-act=walk-end]');
  assert.match(await asked(), like('walk-left', { button: say('walk-next') }));
  assert.match(await page.textContent('.walk h1'), like('walk-ask-foot', { tree: 2 }));
});

pageTest('ten sampled trees stand for the row', phone, async ({ page }) => {
  await page.tap('[data-way=walk]');
  await page.getByLabel(say('walk-sample')).check();
  await page.fill('#made-trees', '55');
  await button(page, 'way-walk-go').tap();
  await page.waitForSelector('#walk-field');
  assert.match(await page.textContent('.walk-where'), like('walk-progress-sample', { trees: '1, 7, 13, 19, 25, 31, 37, 43, 49, 55' }));
  await type(page, '0.4');
  await page.tap('[data-act=walk-right-way]');
  await type(page, '2.4');
  await type(page, '22');
  await type(page, '1.2');
  await type(page, '11');
  await page.tap('[data-act=walk-next-tree]');
  assert.match(await page.textContent('.walk h1'), like('walk-ask-foot', { tree: 7 }));
  await shot(page, 'sample-7');
  // Stopped for now, and gone on with.
  await button(page, 'walk-leave').tap();
  await page.tap('[data-way=walk-on]');
  await page.waitForSelector('#walk-field');
  for (let tree = 1; tree < 10; tree += 1) await page.tap('[data-act=walk-same]');
  await page.tap('[data-act=walk-open]');
  await page.waitForSelector('.stage [data-tree="1"]', { state: 'attached' });
  assert.match(await page.textContent('.row-note'), like('walk-note-sample', { count: 10, trees: 55 }));
});
