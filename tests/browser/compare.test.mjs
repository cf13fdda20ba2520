// Schemes: two of one row, side by side, and on one page of paper.
import assert from 'node:assert/strict';
import { example, phone, plant } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

const schemes = (page) => page.locator('.schemes label').allTextContents();
const shown = async (page) => (await page.locator('.schemes label.here').textContent()).trim();
/** Presses a button; what is done with schemes stands in their menu. */
async function act(page, name) {
  if (name.startsWith('scheme-')) await page.locator('.schemes .more > summary').click();
  await page.locator(`[data-act="${name}"]`).first().click();
}
/** Has another scheme stand beside. */
async function beside(page, option) {
  await page.locator('.schemes .more > summary').click();
  await page.locator('[data-field="beside"]').selectOption(option);
}

async function rename(page, name) {
  await act(page, 'scheme-rename');
  await page.locator('.scheme-name').fill(name);
  await page.keyboard.press('Enter');
  await page.locator('.schemes label', { hasText: name }).waitFor();
}

/** Looks at a leaf, at the time of the year that is looked at. */
async function leaf(page, number) {
  await page.locator(`.year[data-leaf="${number}"] input`).check();
  await frames(page, 3);
}

/** What is printed. */
async function printed(page) {
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  const sheets = await page.evaluate(() =>
    [...document.querySelector('#print-sheets').shadowRoot.querySelectorAll('svg[role=img]:not(.chart)')].map((sheet) => ({
      walls: [...sheet.querySelectorAll('.sheet-strip > svg.wall:not([overflow])')].map((wall) => {
        const box = wall.getBoundingClientRect();
        return { left: box.left, width: box.width, shoots: wall.querySelectorAll('[data-part]').length };
      }),
      marked: sheet.querySelectorAll('.lone').length,
      charts: sheet.querySelectorAll('.chart').length,
      words: [...sheet.querySelectorAll('text')].map((t) => t.textContent).join(' '),
      height: sheet.getBoundingClientRect().height,
    })),
  );
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: 'screen' });
  return sheets;
}

pageTest('a leader is laid forward in one scheme and backward in another, both are seen at leaf 5 and printed on one page', {}, async ({ page }) => {
  await example(page);
  await rename(page, 'Lay forward');
  const choose = async () => {
    if ((await page.locator('.part-list').getAttribute('open')) === null) await page.locator('.part-list summary').click();
    await page.locator('.part-list select').selectOption('5');
    await page.locator('.part-list li button').nth(1).click();
    await end.waitFor();
  };
  // Tree 5 stands short: its end shoot closes the gap where it is laid forward.
  const end = page.locator('.handle[data-of="5/1"] .knob').first();
  const lay = async (dx) => {
    const box = await end.boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const wood = await page.locator('.stage [data-part="5/1"] .wood').first().boundingBox();
    const foot = wood.y + wood.height;
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + dx / 2, (y + foot) / 2, { steps: 4 });
    await page.mouse.move(x + dx, foot, { steps: 6 });
    await page.mouse.up();
    await frames(page, 3);
  };
  await act(page, 'scheme-copy');
  await rename(page, 'Lay backward');
  await choose();
  await lay(-90);
  await page.locator('.schemes label', { hasText: 'Lay forward' }).click();
  await choose();
  await lay(90);
  assert.deepEqual((await schemes(page)).map((s) => s.trim()), ['Lay forward', 'Lay backward']);
  await beside(page, { label: 'Lay backward' });
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  await leaf(page, 5);
  const course = (stage) => page.locator(`${stage} [data-part="5/1"] .wood`).first().getAttribute('d');
  assert.notEqual(await course('.stage'), await course('.stage-beside'), 'the leader runs another way');
  // Both are in sight.
  await page.evaluate(() => window.scrollTo(0, 0));
  const edge = await page.locator('.stage-beside').boundingBox();
  assert.ok(edge.y + edge.height <= 800, JSON.stringify(edge));
  const bars = await page.locator('.year.here').evaluate((e) => ['.year-bar.beside', '.year-crop'].map((c) => e.querySelector(c).getBoundingClientRect().toJSON()));
  assert.ok(bars[0].bottom <= bars[1].top + 1, 'the other crop’s bar lies over no word');
  // One scale, one place.
  const box = (stage) => page.locator(`${stage} .wall`).first().getAttribute('viewBox');
  assert.equal(await box('.stage'), await box('.stage-beside'));
  const figures = await page.locator('.beside tbody tr').evaluateAll((rows) => rows.map((r) => [...r.children].map((c) => c.textContent)));
  assert.ok(figures.length > 8 && figures.every((r) => r.length === 3));
  assert.ok(await page.locator('.beside .differs').count() > 1);
  await act(page, 'charts');
  const names = await page.locator('.charts figure').first().locator('th').allTextContents();
  assert.deepEqual(names.slice(1), ['Lay forward', 'Lay backward']);
  await page.keyboard.press('Escape');
  const sheets = await printed(page);
  assert.equal(sheets.length, 1);
  const [sheet] = sheets;
  assert.equal(sheet.walls.length, 2);
  assert.deepEqual([sheet.walls[0].left, sheet.walls[0].width], [sheet.walls[1].left, sheet.walls[1].width]);
  assert.match(sheet.words, new RegExp(like('two-title', { one: 'Lay forward', other: 'Lay backward' }).source));
  assert.equal(sheet.charts, 4);
  assert.ok(Math.abs(sheet.height - 210 * (96 / 25.4)) < 1);
  // Steps through the leaves move both.
  await page.locator('.stage').focus();
  const before = await page.locator('.stage-beside .trees').innerHTML();
  await page.keyboard.press('.');
  await frames(page, 3);
  assert.equal(await page.locator('.year.here').getAttribute('data-leaf'), '6');
  assert.notEqual(await page.locator('.stage-beside .trees').innerHTML(), before);
  // They change places, and the other goes.
  await act(page, 'two-swap');
  assert.equal(await shown(page), 'Lay backward');
  await act(page, 'two-close');
  await page.locator('.stage-beside').waitFor({ state: 'detached' });
  assert.ok((await printed(page)).length >= 1);
});

pageTest('schemes are added, copied, named and removed by keys, undone, and kept', {}, async ({ page }) => {
  await example(page);
  const first = await shown(page);
  await page.locator('.stage').focus();
  for (const key of ['n', 'd', 'v']) {
    await page.keyboard.press(key);
    await frames(page, 2);
  }
  const names = (await schemes(page)).map((s) => s.trim());
  assert.equal(names.length, 3);
  assert.equal(new Set(names).size, 3);
  assert.equal(await shown(page), first);
  // A name that another has is refused.
  await act(page, 'scheme-rename');
  await page.locator('.scheme-name').fill(names[1]);
  await page.keyboard.press('Enter');
  await page.locator('.notice', { hasText: like('refusal-scheme-name') }).waitFor();
  await page.locator('.stage').focus();
  await page.keyboard.press('x');
  await frames(page, 2);
  assert.equal((await schemes(page)).length, 2);
  await page.keyboard.press('Control+z');
  await frames(page, 2);
  assert.deepEqual((await schemes(page)).map((s) => s.trim()), names);
  await page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  assert.deepEqual((await schemes(page)).map((s) => s.trim()), names);
  while ((await schemes(page)).length > 1) {
    await act(page, 'scheme-remove');
    await frames(page, 2);
  }
  assert.ok(await page.locator('[data-act="scheme-remove"]').isDisabled(), 'the last one stays');
});

pageTest('hours, cuts and materials of both are told beside, on paper and to a class', {}, async ({ page }) => {
  await page.locator('[data-example*="renewal-a-fifth"]').first().click();
  const line = (key) => page.locator('.beside-told tr', { hasText: like(key) });
  // The helper is asked once all rests.
  await line('two-cuts').locator('td', { hasNotText: say('two-waits') }).first().waitFor();
  const values = async (key) => (await line(key).locator('td').allInnerTexts()).map((t) => Number(t.replace(/[^\d.,]/g, '').replace(',', '.')));
  const [own, other] = await values('two-cuts');
  assert.ok(own > 0 && other > 0 && own !== other, `${own}, ${other}`);
  for (const n of await values('two-hours')) assert.ok(n > 0);
  assert.ok((await line('two-ties').count()) === 1 && (await line('two-trees').count()) === 0, 'what neither takes is not told');
  const [sheet] = await printed(page);
  for (const key of ['two-hours', 'two-cuts', 'two-ties']) assert.match(sheet.words, like(key));
  await page.keyboard.press('p');
  const told = page.locator('.present-said');
  await told.waitFor();
  assert.doesNotMatch(await told.innerText(), like('two-cuts'), 'nothing before it is asked for');
  await page.click('[data-act=present-tell]');
  const [one, two] = (await told.innerText()).split('\n').filter((l) => like('two-cuts').test(l)).join().match(/\d+(?=,|$)/g).slice(-2).map(Number);
  assert.deepEqual([one, two], [own, other]);
});

pageTest('a leaf’s work is copied on, and what cannot follow is said', {}, async ({ page }) => {
  await example(page);
  await act(page, 'leaf-copy-on');
  const said = page.locator('.notice');
  await said.waitFor();
  assert.match(await said.locator('span').textContent(), new RegExp(like('leaf-copied').source));
  assert.match(await said.locator('span').textContent(), new RegExp(like('leaf-left').source));
});

pageTest('a lesson opens with its two schemes side by side, and what stands beside outlives a reload', {}, async ({ page }) => {
  await example(page, 'lessons/renewal-a-fifth-or-never.json');
  const both = page.locator('.stage-beside [data-tree]').first();
  await both.waitFor();
  const name = async () => (await page.locator('.beside-name b').last().textContent()).trim();
  assert.equal(await name(), (await schemes(page))[1].trim());
  await page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();
  await act(page, 'two-swap');
  const swapped = await name();
  await page.reload();
  await both.waitFor();
  assert.equal(await name(), swapped);
  await act(page, 'two-close');
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await page.locator('.stage-beside').count(), 0);
});

pageTest('on a telephone the walls stand one under the other, and the page is no wider than the screen', phone, async ({ page }) => {
  await example(page);
  await act(page, 'scheme-copy');
  await beside(page, { index: 1 });
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  const [own, other] = await Promise.all(['.stage', '.stage-beside'].map((s) => page.locator(s).boundingBox()));
  assert.ok(other.y >= own.y + own.height);
  assert.deepEqual([other.x, other.width], [own.x, own.width]);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth));
});

/** What of the ground and of the trees' numbers lies below the frame of a wall, px; and how many numbers there are. */
const sunk = (page, wall) =>
  page.$eval(wall, (e) => {
    const low = [...e.querySelectorAll('.ground-line, .tree-numbers text')].map((of) => of.getBoundingClientRect().bottom);
    return { count: low.length, by: Math.max(...low) - e.getBoundingClientRect().bottom };
  });

pageTest('two short rows side by side stand on their ground, with their numbers and a ruler under each', { viewport: { width: 1280, height: 720 } }, async ({ page }) => {
  await plant(page, 10);
  await page.locator('.stage').focus();
  await page.keyboard.press('d');
  await leaf(page, 5);
  await page.locator('.stage').focus();
  await page.keyboard.press('0');
  await page.keyboard.press('c');
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  await page.locator('.beside tbody tr').first().waitFor();
  await frames(page, 5);
  for (const wall of ['.stage', '.stage-beside']) {
    const { count, by } = await sunk(page, wall);
    assert.ok(count > 5 && by < 1, `${wall}: ${count}, ${by} px`);
  }
  // What stands under the first band covers none of it.
  const [rulers, key] = await page.evaluate(() => {
    const box = (e) => e.getBoundingClientRect();
    const rulers = [...document.querySelectorAll('.band')].map((band) => {
      const ends = [...band.querySelectorAll('.ruler-tick, .ruler text, text')].map((e) => box(e).bottom);
      return { inside: Math.max(...ends) <= box(band).bottom + 1, ends: box(band).bottom, at: [...band.querySelectorAll('text')].filter((t) => /^\d+ m$/.test(t.textContent)).length };
    });
    return [rulers, box(document.querySelector('.stage-beside ~ .under-band')).top];
  });
  for (const { inside, ends, at } of rulers) assert.ok(inside && at > 1 && key >= ends - 1, JSON.stringify([rulers, key]));
});

pageTest('where two do the same at one time, it is said that they part at another', {}, async ({ page }) => {
  await plant(page, 4);
  await page.locator('.stage').focus();
  await page.keyboard.press('d');
  await page.keyboard.press('c');
  const same = page.locator('.beside-told .facts');
  await same.waitFor();
  assert.equal((await same.textContent()).trim(), say('two-same'));
  await leaf(page, 2);
  await page.locator('.stage').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('s');
  await page.locator('.beside-told h3').first().waitFor();
  await leaf(page, 1);
  await same.waitFor();
  const apart = say('two-apart', { leaf: 2, window: say('window-dormant') });
  assert.equal((await same.textContent()).trim(), `${say('two-same')} ${apart}`);
});
