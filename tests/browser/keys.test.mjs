// An hour at the desk without a pointer: a consultant's with a client's table, an instructor's with two schemes before a class.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, saved } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

/** No more presses of Tab than this lead to anything. */
const FAR = 120;

/** A keyboard, and nothing else. */
class Keys {
  constructor(page) {
    this.page = page;
    // Whoever would use the mouse in a test of keys is told.
    page.mouse.click = page.mouse.down = () => assert.fail('a test of keys has no pointer');
  }

  async press(...keys) {
    for (const key of keys) {
      await this.page.keyboard.press(key);
      await frames(this.page, 2);
    }
  }

  /** Goes by Tab to what a selector names, which is seen there and has a visible focus. */
  async to(selector, key = 'Tab') {
    for (let i = 0; i < FAR; i += 1) {
      const found = await this.page.evaluate((selector) => {
        const at = document.activeElement;
        if (!at.matches(selector)) return null;
        const { width, height, bottom, top } = at.getBoundingClientRect();
        // What is drawn in its place has the ring of a control that is not.
        return { seen: width * height > 0 && bottom > 0 && top < innerHeight, ring: at.matches(':focus-visible') };
      }, selector);
      if (found) {
        assert.deepEqual(found, { seen: true, ring: true }, selector);
        return;
      }
      await this.page.keyboard.press(key);
    }
    assert.fail(`${FAR} presses of ${key} do not lead to ${selector}`);
  }

  /** Goes there and presses it. */
  async use(selector, key = 'Enter') {
    await this.to(selector);
    await this.press(key);
  }

  /** Goes to a field, and types in the place of what stands there. */
  async type(selector, text) {
    await this.to(selector);
    await this.page.keyboard.press('Control+a');
    await this.page.keyboard.type(text);
    await this.press('Enter');
  }

  /** Opens a menu or fold, and goes to what stands in it. */
  async within(menu, selector) {
    await this.use(`${menu} > summary`);
    await this.to(selector);
  }
}

const TABLE = `Row 7, measured in winter
tree;place (m);kind;length (cm);diameter (mm);side;pose
1;0,00;leader;220;38;right;45
1;0,60;upright;150;16;;
1;0,85;upright;sixty;15;;
1;1,10;upright;140;14;;
1;1,40;upright;160;17;;
1;1,70;upright;150;15;;
2;2,90;leader;180;36;right;45
2;3,40;upright;150;16;;
2;3,45;upright;140;15;;
2;3,90;upright;170;21;;
2;4,20;upright;150;15;;
3;5,60;leader;200;37;right;45
3;6,20;upright;150;16;;
3;6,60;upright;140;15;;
`;

pageTest('a consultant’s hour by keys alone: a table in, corrected, advised on, left, found again, saved and opened', {}, async ({ page }) => {
  const keys = new Keys(page);
  await page.locator('.start').waitFor();
  // A client's table is chosen, and its slip is told before it is used.
  const chooser = page.waitForEvent('filechooser');
  await keys.to('input[type=file]');
  await keys.press('Space');
  await (await chooser).setFiles({ name: 'client.csv', mimeType: 'text/csv', buffer: Buffer.from(TABLE) });
  await page.locator('dialog.sheet[open]').waitFor();
  assert.ok((await page.locator('dialog.sheet').innerText()).includes('sixty'));
  await keys.use('[data-act=import-use]');
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await page.evaluate(() => document.activeElement.className), 'stage');

  // A length is corrected in the record, as one step.
  await keys.press('ArrowRight', 'ArrowRight');
  await keys.to('[data-act=correct]');
  await keys.press('Space');
  await page.waitForSelector('.stage.correcting');
  await keys.type('.part-card [data-field="measure-length"] input', '190 cm');
  assert.equal(await page.locator('.part-card [data-field="measure-length"] input').inputValue(), '1.90 m');
  await keys.press('Control+z');
  await keys.press('Control+y');
  await keys.to('[data-act=correct]');
  await keys.press('Space');
  assert.equal(await page.locator('.stage.correcting').count(), 0);

  // A remedy is shown on the wall under the focus, then done.
  const matters = page.locator('.findings [data-matter]');
  const begun = await matters.count();
  assert.ok(begun > 1);
  await page.locator('.findings [data-remedy]:not([aria-disabled])').first().waitFor();
  await page.locator('.findings [data-remedy][aria-disabled]').first().waitFor({ state: 'detached' });
  await keys.to('.findings [data-remedy]');
  assert.ok((await page.locator('.stage .tried > *').count()) > 0, 'what it would do is drawn');
  await keys.press('Enter');
  const undo = page.locator('[data-act=undo]');
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').disabled);
  assert.notEqual(await undo.getAttribute('title'), say('undo-step', { step: say('step-correct') }));
  assert.ok(await page.evaluate(() => document.activeElement.closest('.findings') !== null), 'the focus stays in the list');

  // Another is left for the year, with a reason.
  await keys.use('.findings [data-act=leave]');
  await keys.to('[data-field=leave-why]');
  await page.keyboard.type('the client wants to wait a year');
  await keys.use('[data-act=leave-do]');
  await page.locator('.left-matters').waitFor({ state: 'attached' });

  // Coloured by age, a tree found by its number, the wall before and after the work.
  await keys.to('[data-field=colour-by]');
  await keys.press('a');
  await keys.to('.stage');
  await keys.press('g');
  await page.keyboard.type('3');
  await keys.press('Enter');
  assert.match(await page.locator('.part-card').innerText(), like('name-tree', { tree: 3 }));
  await keys.to('[data-act="work-before"], [data-act="work-after"]');
  await keys.press('ArrowLeft');
  assert.equal(await page.locator('[data-act="work-before"]').isChecked(), true);
  await keys.press('ArrowRight');
  assert.equal(await page.locator('[data-act="work-before"]').isChecked(), false);

  // Saved as a file, which opens as it was.
  await keys.within('.doings .more', '[data-act=save-plan]');
  const [file] = await Promise.all([page.waitForEvent('download'), keys.press('Enter')]);
  const plan = await readFile(await file.path());
  await saved(page);
  const work = await page.locator('.work-list summary').textContent();
  await keys.within('.doings .more', '[data-act=other-row]');
  await keys.press('Enter');
  await page.locator('.start').waitFor();
  const again = page.waitForEvent('filechooser');
  await keys.to('input[type=file]');
  await keys.press('Space');
  await (await again).setFiles({ name: 'plan.json', mimeType: 'application/json', buffer: plan });
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await page.locator('.work-list summary').textContent(), work);
  assert.equal(await page.locator('.left-matters').count(), 1);
});

pageTest('an instructor’s hour by keys alone: two schemes, a leader laid either way, leaf 5 of both, a question before the class', {}, async ({ page }) => {
  const keys = new Keys(page);
  await page.locator('.start').waitFor();
  await keys.use('[data-example="examples/third-leaf.json"]');
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  const names = async () => (await page.locator('.schemes label').allTextContents()).map((s) => s.trim());

  const choose = async (part) => {
    await keys.to('.part-list > summary');
    if (!(await page.locator('.part-list').evaluate((e) => e.open))) await keys.press('Enter');
    await keys.to('.part-list select');
    while ((await page.locator('.part-list select').inputValue()) !== '5') await keys.press('ArrowDown');
    await keys.to('.part-list li button');
    for (let i = 0; i < part; i += 1) await keys.press('Tab');
    await keys.press('Enter');
    await page.locator('.part-card').waitFor();
  };
  // Tree 5 stands short: its end shoot closes the gap where it is laid forward.
  await choose(1);
  await keys.use('.part-card [data-act=act-lay-right]');
  await keys.press('d', 'r');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Laid backward');
  await keys.press('Enter');
  assert.equal((await names()).length, 2);
  await choose(1);
  await keys.use('.part-card [data-act=act-lay-left]');

  // Beside each other, at leaf 5.
  await keys.press('c');
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  while ((await page.locator('.year.here').getAttribute('data-leaf')) !== '5') await keys.press('.');
  const course = (stage) => page.locator(`${stage} [data-part="5/1"] .wood`).first().getAttribute('d');
  assert.notEqual(await course('.stage'), await course('.stage-beside'), 'the leader runs another way');
  const crops = await page.locator('.beside tbody tr').count();
  assert.ok(crops > 8);
  const printed = page.evaluate(() => new Promise((done) => (window.print = () => done(true))));
  await keys.press('Control+p');
  assert.equal(await printed, true);
  await keys.press('c');

  // A class is asked which go, names two, and is told.
  await keys.press(',', ',', 'p');
  await page.locator('.present-bar').waitFor();
  await keys.press('q');
  const said = () => page.locator('.present-said').textContent();
  assert.equal(await said(), say('present-asks', { count: 0 }));
  await keys.to('.stage');
  await keys.press('ArrowRight', 'ArrowRight', 'Enter', 'ArrowRight', 'Enter');
  assert.match(await said(), like('present-asks', { count: 2 }));
  const untold = () => page.evaluate(() => document.documentElement.matches('.untold'));
  assert.equal(await untold(), true);
  await keys.press('a');
  assert.equal(await untold(), false);
  await keys.press('a', 'q', 'w', '.', ',', 'v', 'm');
  assert.ok((await said()).length > 10);
  // What is chosen is left first, then the class.
  await keys.press('Escape', 'Escape');
  await page.locator('.panels').waitFor();
  assert.equal(await page.locator('.present-bar').count(), 0);
});
