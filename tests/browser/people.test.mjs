// Three people, each with a real row: a grower with a phone, an instructor with a class, a consultant on a call.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, figure, findings, mendAll, part, phone, remedyIn } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const bare = (page) => findings(page, 'cordon-gap');
const between = (left, right) => like('finding-cordon-gap', { where: 'between', left, right });
const percent = async (page) => Number((await figure(page, 'figure-fill')).match(/(\d+) %/)[1]);

pageTest('a grower walks ten trees with a phone, finds a gap and fills it', phone, async ({ page }) => {
  await page.getByRole('button', { name: say('way-walk-do') }).tap();
  await page.getByLabel('m', { exact: true }).check();
  assert.deepEqual(await accessibility(page), []);
  await page.getByRole('button', { name: say('way-walk-go', { tree: 1 }) }).tap();
  const field = page.locator('#walk-field');
  const act = (name) => page.locator(`[data-act="${name}"]`).tap();
  const answer = async (text) => {
    await field.fill(text);
    await act('walk-next');
  };
  // What can't be is refused in words, and what was typed stays.
  await answer('abc');
  assert.match(await page.locator('#walk-wrong').textContent(), /abc/);
  assert.equal(await field.inputValue(), 'abc');
  for (let tree = 1; tree <= 10; tree += 1) {
    const foot = (tree - 1) * 1.5;
    await answer(foot.toFixed(2));
    await act('walk-right-way');
    // Tree 6 falls short; its last upright stands at its leader's end.
    const end = tree === 6 ? foot + 1.45 : foot + 2.05;
    await answer(end.toFixed(2));
    await answer('28');
    for (let x = foot + 0.6; x < end - 0.02; x += 0.2) {
      await answer(x.toFixed(2));
      await answer('14');
    }
    if (tree === 6) {
      await answer(end.toFixed(2));
      await answer('13');
    }
    if (tree === 4) {
      // The page goes and comes back half-way.
      await page.reload();
      await field.waitFor();
    }
    if (tree < 10) await act('walk-next-tree');
    else await act('walk-last-tree');
  }
  await act('walk-open');
  await page.waitForSelector('.stage [data-tree="10"], .stage [data-tree="1"]');
  assert.match(await figure(page, 'figure-uprights'), /\d+/);
  assert.equal(await bare(page).count(), 1, (await page.locator('.finding').allTextContents()).join('\n'));
  assert.match(await bare(page).textContent(), between(6, 7));
  const before = await percent(page);
  await (await remedyIn(bare(page))).tap();
  await frames(page, 2);
  assert.equal(await bare(page).count(), 0);
  assert.ok((await percent(page)) > before);
  await page.locator('[data-act=undo]').tap();
  await frames(page, 2);
  assert.equal(await bare(page).count(), 1);
});

pageTest('an instructor shows a row before and after two kinds of work', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const stubs = page.locator('.stage .shoot.stub');
  const before = await stubs.count();
  await mendAll(page, 'renewal-due');
  await frames(page, 2);
  const stubbed = await stubs.count();
  assert.ok(stubbed > before, 'uprights are stubbed');
  // At the same place as the first press: no second half of that.
  await page.waitForTimeout(700);
  await mendAll(page, 'laterals-due');
  await frames(page, 2);
  // Before: the row as it stands, with a sign at every cut; each kind of work has its own.
  await page.locator('[data-act="work-before"]').check({ force: true });
  await frames(page, 2);
  assert.equal(await stubs.count(), before);
  assert.ok((await page.locator('.signs .work-stub').count()) > 0, 'signs for stubs');
  assert.ok((await page.locator('.signs .work-laterals').count()) > 0, 'signs for laterals');
  // A key says what they mean, and those alone that are there.
  const key = page.locator('.sign-key .key');
  assert.deepEqual(await key.allInnerTexts(), [say('draw-sign-stub'), say('draw-sign-laterals')]);
  assert.deepEqual(await accessibility(page), []);
  await page.locator('[data-act="work-after"]').check({ force: true });
  await frames(page, 2);
  assert.equal(await stubs.count(), stubbed);
  assert.equal(await page.locator('.signs .work').count(), 0);
  assert.equal(await key.count(), 0);
  // The class sees the same in feet and inches.
  await page.locator('[data-act="lengths"]').click();
  assert.match(await figure(page, 'figure-apart'), /in$/);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a consultant brings a table in, corrects a measurement, lays a shoot and passes the row on', {}, async ({ page }) => {
  const table = [
    'tree;place (m);kind;length (m);diameter (mm);side;pose;season',
    '1;0,00;leader;2,20;30;right;45;0',
    '1;0,70;upright;1,50;15;;;1',
    '1;0,90;upright;1,50;15;;;1',
    '1;1,10;upright;1,50;15;;;1',
    '2;1,50;leader;1,50;30;right;45;0',
    '2;2,20;upright;1,50;15;;;1',
    '2;2,28;upright;0,70;9;;;2',
    '3;3,00;leader;2,20;30;right;45;0',
    '3;3,70;upright;1,50;15;;;1',
    '3;bad;upright;1,50;15;;;1',
  ].join('\n');
  await page.locator('input[type=file]').first().setInputFiles({ name: 'client.csv', mimeType: 'text/csv', buffer: Buffer.from(table) });
  assert.match(await page.locator('.bad-lines').textContent(), /bad/);
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="3"]');
  const gap = bare(page).filter({ hasText: between(2, 3) });
  const told = await gap.textContent();
  // The client reads the tape again: the leader of tree 2 is longer.
  await page.locator('[data-act="correct"]').check();
  const list = page.locator('.part-list');
  await list.locator('summary').click();
  await list.getByRole('combobox').selectOption('2');
  await part(page, 'name-leader', { of: 1, tree: 2 }).click();
  const length = page.locator('.part-card [data-field="measure-length"] input');
  await length.fill('1.62 m');
  await length.press('Enter');
  await frames(page, 2);
  assert.notEqual(await gap.textContent(), told);
  await page.locator('[data-act="correct"]').uncheck();
  // The young end shoot is laid on along the wire.
  const short = await percent(page);
  await part(page, 'name-upright', { number: 2, of: 2, tree: 2 }).click();
  await page.locator('[data-act="act-lay-right"]').click();
  await frames(page, 2);
  assert.ok((await percent(page)) > short);
  // Passed on as a table and as a plan, which come back the same.
  const fetch = async (act) => {
    await page.locator('.doings .more summary').click();
    const [file] = await Promise.all([page.waitForEvent('download'), page.locator(`[data-act="${act}"]`).click()]);
    return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'utf8') };
  };
  const csv = await fetch('save-table');
  // The table is the row as it was found, whatever is shown, and says so.
  assert.equal(csv.name, `client-${say('table-found-name')}.csv`);
  assert.match(await page.locator('.notice').textContent(), like('table-found-saved', { leaf: 3 }));
  assert.match(csv.text, /^coming leaf,3\n/);
  assert.doesNotMatch(csv.text, /,laid/, 'the shoot that is laid as work stands in the table as found');
  const [, shoots] = csv.text.trim().split(/^tree,place.*\n/m);
  assert.equal(shoots.split('\n').length, 9);
  // And as it is shown, under another name.
  const shown = await fetch('save-table-shown');
  assert.equal(shown.name, `client-${say('table-shown-name', { leaf: 3, work: 'after' })}.csv`);
  assert.match(await page.locator('.notice').textContent(), like('table-shown-saved', { leaf: 3, work: 'after' }));
  assert.notEqual(shown.text, csv.text);
  const svg = await fetch('save-drawing');
  assert.match(svg.text, /^<svg|^<\?xml/);
  const plan = await fetch('save-plan');
  assert.match(plan.text, /"format": "cordonry-plan"/);
  const filled = await figure(page, 'figure-fill');
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act="other-row"]').click();
  await page.locator('input[type=file]').first().setInputFiles({ name: plan.name, mimeType: 'application/json', buffer: Buffer.from(plan.text) });
  await page.waitForSelector('.stage [data-tree="3"]');
  assert.equal(await figure(page, 'figure-fill'), filled);
});
