// The row before a class: legible from the back, nothing told before it is asked for, all of it by keys.
import assert from 'node:assert/strict';
import { example } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const projector = { viewport: { width: 1280, height: 720 } };
const moment = (page) => page.locator('.present-bar h1').textContent();
const told = (page) => page.locator('.present-said').textContent();

/** Presses a key and waits until the page shows what it did. */
async function key(page, name) {
  await page.keyboard.press(name);
  await frames(page, 3);
}

async function present(page) {
  await example(page);
  await key(page, 'p');
  await page.locator('.present-bar').waitFor();
  await frames(page, 3);
}

/** Letters that are in sight and lower than so many pixels, with what they say. */
const small = (page, least) =>
  page.evaluate((least) => {
    const seen = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && e.getBoundingClientRect().width > 1;
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const out = [];
    while (walker.nextNode()) {
      const of = walker.currentNode.parentElement;
      if (!walker.currentNode.data.trim() || !seen(of) || of.closest('style, script, .visually-hidden')) continue;
      // A drawing's letters are measured as they come out; a line of them is a fifth higher than they are.
      const drawn = of instanceof SVGElement;
      const size = drawn ? of.getBoundingClientRect().height / 1.1 : parseFloat(getComputedStyle(of).fontSize) * of.currentCSSZoom;
      if (size < least) out.push(`${size.toFixed(1)} ${walker.currentNode.data.trim()}`);
    }
    return out;
  }, least);

pageTest('a class at the back can read all that is shown, and sees every upright', projector, async ({ page }) => {
  await present(page);
  assert.deepEqual(await small(page, 24), []);
  const thin = await page.evaluate(() => {
    const uprights = [...document.querySelectorAll('.stage .shoot .wood')].filter((e) => e.getBoundingClientRect().height > 60);
    const width = (e) => {
      const scale = e.getBoundingClientRect().height / e.getBBox().height;
      return parseFloat(getComputedStyle(e).strokeWidth) * scale;
    };
    return { count: uprights.length, least: Math.min(...uprights.map(width)) };
  });
  const cut = await page.$$eval('.year :is(b, .year-crop)', (all) => all.filter((e) => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflow === 'hidden').length);
  assert.equal(cut, 0, 'cells whose figure is cut');
  assert.ok(thin.count > 10 && thin.least >= 3 - 1e-6, JSON.stringify(thin));
  const size = await page.evaluate(() => {
    const height = (s) => document.querySelector(s).getBoundingClientRect().height;
    const root = document.documentElement;
    return { shown: (height('.years') + height('.stage') + height('.band')) / innerHeight, over: [root.scrollHeight - innerHeight, root.scrollWidth - innerWidth] };
  });
  assert.ok(size.shown > 0.6, JSON.stringify(size));
  assert.deepEqual(size.over, [0, 0]);
});

pageTest('which ones is asked, named and answered, by keys', projector, async ({ page }) => {
  await present(page);
  const sign = page.locator('.stage .signs [class*="work-"]').first();
  assert.equal(await sign.isVisible(), false, 'a sign tells the answer');
  await key(page, 'q');
  assert.equal(await told(page), say('present-asks', { count: 0 }));
  assert.ok((await moment(page)).includes(say('work-before')), 'what goes is still there');
  // Two that are stubbed by the plan, and one that is not.
  const press = async (part) => {
    const box = await page.locator(`.stage [data-part="${part}"] .wood`).first().boundingBox();
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    await frames(page, 2);
  };
  const tall = await page.$$eval('.stage [data-part] .wood', (all) => [
    ...new Set(all.filter((e) => e.getBoundingClientRect().height > 80).map((e) => e.closest('[data-part]').dataset.part)),
  ]);
  for (const part of tall.slice(3, 9)) await press(part);
  assert.equal(await told(page), say('present-asks', { count: 6 }));
  const letters = () => page.locator('.stage .candidate').allTextContents();
  assert.deepEqual((await letters()).map((l) => l.trim()).sort(), ['A', 'B', 'C', 'D', 'E', 'F']);
  // Pressed again it is taken back, and what comes after it is lettered anew.
  await press(tall[3]);
  assert.equal((await letters()).length, 5);
  await key(page, 'a');
  assert.ok((await moment(page)).includes(say('work-before')));
  const answered = (await letters()).map((l) => l.trim());
  assert.ok(answered.every((l) => /[✓✗]$/.test(l)), answered.join());
  assert.ok(answered.some((l) => l.endsWith('✗')), answered.join());
  // How many were right is told, with the work that was asked for.
  const right = answered.filter((l) => l.endsWith('✓')).length;
  assert.match(await told(page), new RegExp(`^${like('present-right', { right, named: 5 }).source.replace(/^\^|\$$/g, '')}`));
  assert.equal(await sign.isVisible(), true);
  assert.deepEqual(await small(page, 24), []);
  // What is to be done is told where both are asked for.
  await key(page, 'm');
  assert.doesNotMatch(await told(page), like('present-asks', {}));
  await key(page, 'm');
  // In another leaf it is asked anew: what was named stood on another row.
  await key(page, '.');
  assert.equal(await told(page), say('present-asks', { count: 0 }));
  assert.deepEqual(await letters(), []);
  await key(page, ',');
  await press(tall[4]);
  await key(page, 'a');
  // Hidden again, and put away.
  await key(page, 'a');
  assert.equal(await sign.isVisible(), false);
  await key(page, 'q');
  assert.deepEqual(await letters(), []);
});

pageTest('keys go before and after the work, leaf by leaf and to what is to be done; Escape ends it', projector, async ({ page }) => {
  await present(page);
  const first = await moment(page);
  // A class sees the row before its work, and going on tells no answer.
  assert.ok(first.includes(say('work-before')));
  await key(page, '.');
  assert.match(await moment(page), like('season-leaf', { leaf: 4 }));
  assert.ok((await moment(page)).includes(say('work-before')));
  await key(page, ',');
  await key(page, 'w');
  assert.equal(await moment(page), first.replace(say('work-before'), say('work-after')));
  assert.equal(await told(page), '');
  await key(page, 'm');
  const matter = await told(page);
  assert.ok(matter.length > 10, matter);
  await key(page, 'm');
  assert.notEqual(await told(page), matter);
  assert.equal(await page.locator('.panels').isVisible(), false);
  assert.deepEqual(await accessibility(page), []);
  await key(page, 'Escape');
  await page.locator('.panels').waitFor();
  assert.equal(await page.locator('.present-bar').count(), 0);
  assert.equal(await page.evaluate(() => document.documentElement.className), '');
});

pageTest('who leaves the row while a class sees it finds the desk as it is the next time', projector, async ({ page }) => {
  await present(page);
  await page.goBack();
  await page.waitForSelector('.start');
  assert.equal(await page.evaluate(() => document.documentElement.className), '');
  await example(page);
  assert.equal(await page.locator('.panels').isVisible(), true);
  assert.equal(await page.locator('.present-bar').count(), 0);
});

pageTest('what grows beyond the wall before the work is in sight whole', projector, async ({ page }) => {
  await present(page);
  for (let step = 0; step < 3; step += 1) {
    await key(page, '.');
    if (!(await moment(page)).includes(say('work-before'))) await key(page, 'w');
    await frames(page, 4);
    const [frame, wood] = await page.evaluate(() => [
      document.querySelector('.stage').getBoundingClientRect().top,
      Math.min(...[...document.querySelectorAll('.stage .trees .wood')].map((e) => e.getBoundingClientRect().top)),
    ]);
    assert.ok(wood >= frame, `${wood} ${frame}`);
  }
});

const lesson = 'lessons/structure-or-crop-first.json';
const seen = (page) => page.locator('.stage [style*="--px"]').first().getAttribute('viewBox');

/** Shows an example to a class. */
async function presentOf(page, name) {
  await example(page, name);
  await key(page, 'p');
  await page.locator('.present-bar').waitFor();
  await frames(page, 4);
}

pageTest('a lesson is drawn alike under each of its schemes, and its comparison is back on the desk', projector, async ({ page }) => {
  await presentOf(page, lesson);
  for (let leaf = 0; leaf < 3; leaf += 1) {
    const first = [await seen(page), await moment(page)];
    await key(page, 'v');
    const second = [await seen(page), await moment(page)];
    assert.notEqual(second[1], first[1]);
    assert.equal(second[0], first[0]);
    await key(page, 'v');
    assert.deepEqual([await seen(page), await moment(page)], first);
    await key(page, '.');
  }
  // The class leaves off at the scheme that stood beside.
  await key(page, 'v');
  await key(page, 'Escape');
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  const names = await page.locator('.beside-name b').allTextContents();
  assert.equal(new Set(names).size, 2, names.join());
});

pageTest('one scale does for before and after the work, for asking and for the answer, with all in sight', projector, async ({ page }) => {
  await presentOf(page, 'third-leaf.json');
  const scale = () => page.evaluate(() => {
    const stage = document.querySelector('.stage');
    const tops = [...stage.querySelectorAll('.trees .wood')].map((e) => e.getBoundingClientRect().top);
    const px = stage.querySelector('[style*="--px"]').style.getPropertyValue('--px');
    return { px, height: stage.clientHeight, cut: Math.min(...tops) < stage.getBoundingClientRect().top };
  });
  await key(page, '.');
  const first = await scale();
  assert.equal(first.cut, false);
  for (const state of ['w', 'w', 'q', 'a', 'm', 'a', 'q']) {
    await key(page, state);
    assert.deepEqual(await scale(), first, state);
  }
});

pageTest('a bud is drawn as a bud', projector, async ({ page }) => {
  await presentOf(page, 'third-leaf.json');
  const bud = page.locator('.stage .bud path.wood, .stage .bud .wood path').first();
  for (let step = 0; step < 8 && !(await bud.count()); step += 1) await key(page, '>');
  const drawn = await bud.evaluate((e) => ({ edge: parseFloat(getComputedStyle(e).strokeWidth), wide: e.getBBox().width }));
  assert.ok(drawn.edge < drawn.wide / 3, JSON.stringify(drawn));
});

pageTest("in a reader's own colours a pressed button says what it is", { ...projector, context: { forcedColors: 'active' } }, async ({ page }) => {
  await presentOf(page, 'third-leaf.json');
  await key(page, 'q');
  const pressed = page.locator('.present-acts [aria-pressed=true]');
  const [ground, letters, forced] = await pressed.evaluate((e) => {
    const style = getComputedStyle(e);
    return [style.backgroundColor, style.color, style.forcedColorAdjust];
  });
  // Colours that the system lays on anew are not told; these are those of what is marked.
  assert.equal(forced, 'none');
  assert.notEqual(ground, letters);
});

pageTest('the answer signs what was asked for alone, and its letters keep clear of each other', projector, async ({ page }) => {
  await presentOf(page, 'third-leaf.json');
  const kinds = () => page.$$eval('.stage .signs [class*="work-"]', (all) => [...new Set(all.flatMap((e) => [...e.classList]))].filter((c) => c.startsWith('work-')));
  await key(page, 'a');
  const all = await kinds();
  await key(page, 'a');
  await key(page, 'q');
  const tall = await page.$$eval('.stage [data-part] .wood', (all) => [
    ...new Set(all.filter((e) => e.getBoundingClientRect().height > 60).map((e) => e.closest('[data-part]').dataset.part)),
  ]);
  for (const part of tall.slice(3, 10)) {
    const box = await page.locator(`.stage [data-part="${part}"] .wood`).first().boundingBox();
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    await frames(page, 2);
  }
  await key(page, 'a');
  const asked = await kinds();
  assert.ok(asked.length >= 1 && asked.length < all.length, `${asked} of ${all}`);
  const over = await page.$$eval('.stage .candidate', (all) => {
    const boxes = all.map((e) => e.querySelector('.pin-head').getBoundingClientRect());
    const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    return { count: boxes.length, meet: boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => meet(a, b))).length };
  });
  assert.ok(over.count >= 6, JSON.stringify(over));
  assert.equal(over.meet, 0);
  // What the class did has a line of its own.
  const [result, ...note] = (await told(page)).split('\n');
  assert.match(result, like('present-right', {}));
  assert.ok(note.join('').length > 10);
  assert.equal(await page.locator('.present-said').evaluate((e) => getComputedStyle(e).whiteSpaceCollapse), 'preserve-breaks');
});

pageTest('a slip of a key makes no scheme before a class and takes none away', projector, async ({ page }) => {
  await presentOf(page, lesson);
  const schemes = () => page.locator('.schemes label').count();
  const before = await schemes();
  for (const slip of ['d', 'n', 'r', 'x']) {
    await key(page, slip);
    assert.equal(await schemes(), before, slip);
    assert.equal(await page.locator('.scheme-name').count(), 0);
  }
  await key(page, 'Escape');
  await page.locator('.panels').waitFor();
  await page.locator('.stage').focus();
  await key(page, 'd');
  assert.equal(await schemes(), before + 1, 'on the desk it is a key');
});

pageTest('on the desk each other scheme stands beside in turn, then none, and W turns before and after the work', projector, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('.stage').focus();
  while ((await page.locator('.schemes label').count()) < 3) await key(page, 'd');
  const beside = [];
  for (let press = 0; press < 3; press += 1) {
    await key(page, 'c');
    beside.push((await page.locator('.stage ~ .beside-name b').allTextContents()).join());
  }
  assert.equal(new Set(beside.slice(0, 2)).size, 2, beside.join('; '));
  assert.deepEqual([beside.slice(0, 2).includes(''), beside[2]], [false, '']);
  const signs = page.locator('.stage .signs [class*="work-"]');
  await key(page, 'w');
  const one = await signs.count();
  await key(page, 'w');
  assert.notEqual((await signs.count()) > 0, one > 0);
  const keys = await page.locator('#wall-help').textContent();
  for (const name of ['present-ask', 'present-tell', 'present-matter']) {
    assert.ok(keys.includes(say('keys-presenting', { does: say(name) })), name);
  }
  assert.ok(!keys.includes(say('keys-presenting', { does: say('present-phase') })));
});

pageTest('keys of letters are heard while a button has the focus, and it keeps those that press it', projector, async ({ page }) => {
  await presentOf(page, lesson);
  await page.locator('[data-act=present-tell]').click();
  const first = await moment(page);
  await key(page, 'v');
  assert.notEqual(await moment(page), first);
  await key(page, 'v');
  assert.equal(await moment(page), first);
  // Another scheme is asked of anew: pressed again, it tells.
  const tell = page.locator('[data-act=present-tell]');
  assert.equal(await tell.getAttribute('aria-pressed'), 'false');
  await tell.focus();
  await key(page, 'Enter');
  assert.equal(await tell.getAttribute('aria-pressed'), 'true');
  await key(page, 'Escape');
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  // On the desk too, after a time was pressed.
  await page.locator('.times .season input').first().check();
  await key(page, 'c');
  assert.equal(await page.locator('.stage-beside').count(), 0);
});

pageTest('after a class the desk is as it was left', { viewport: { width: 1280, height: 720 } }, async ({ page }) => {
  await example(page);
  const zoom = (act) => page.locator(`.zooms [data-act=${act}]`).click();
  await zoom('fit-row');
  for (let press = 0; press < 4; press += 1) await zoom('zoom-in');
  await page.locator('.stage').focus();
  await key(page, 'End');
  const state = () => page.evaluate(() => [document.querySelector('.stage svg.wall').getAttribute('viewBox'), document.querySelector('.before-after label.here').textContent]);
  for (const look of [0, 1]) {
    await page.locator('.before-after input').nth(look).check();
    await frames(page, 3);
    const left = await state();
    await page.locator('.stage').focus();
    await key(page, 'p');
    await page.locator('.present-bar').waitFor();
    await frames(page, 3);
    assert.notEqual((await state())[0], left[0]);
    await key(page, 'Escape');
    await page.locator('.present-bar').waitFor({ state: 'detached' });
    await frames(page, 5);
    assert.deepEqual(await state(), left);
  }
});

pageTest("in a reader's own colours more is seen of what is filled than of the edges of its ticks", { ...projector, context: { forcedColors: 'active' } }, async ({ page }) => {
  await presentOf(page, 'lessons/renewal-a-fifth-or-never.json');
  await page.locator('.year[data-leaf="8"] input').check();
  await frames(page, 4);
  const png = (await page.locator('div.band').screenshot()).toString('base64');
  const counts = await page.evaluate(async (png) => {
    const bytes = Uint8Array.from(atob(png), (c) => c.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const context = new OffscreenCanvas(image.width, image.height).getContext('2d');
    context.drawImage(image, 0, 0);
    // Along the middle of the strip, from its beginning to its end.
    const { data } = context.getImageData(0, 24, image.width, 1);
    const line = Array.from({ length: image.width }, (_, x) => data.slice(4 * x, 4 * x + 3).join(' '));
    const paper = line[0];
    const strip = line.slice(line.findIndex((c) => c !== paper), line.findLastIndex((c) => c !== paper) + 1);
    const of = (colour) => strip.filter((c) => c === colour).length;
    const others = [...new Set(strip)].filter((c) => c !== paper && c !== '0 0 0');
    return { all: strip.length, paper: of(paper), filled: Math.max(...others.map(of)) };
  }, png);
  assert.ok(counts.all > 200 && counts.filled > counts.paper, JSON.stringify(counts));
});
