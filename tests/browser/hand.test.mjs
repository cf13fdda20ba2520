// Fingers, wheel and what is in sight: the page can be scrolled everywhere, and what is chosen is on the screen.
import assert from 'node:assert/strict';
import { example, phone } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { record } from './trace.mjs';
import { like, say } from './words.mjs';

const scrolled = (page) => page.evaluate(() => window.scrollY);
/** Left and top edge of what the wall shows, mm, and its scale. */
const shown = (page) =>
  page.evaluate(() => {
    const svg = document.querySelector('.stage svg.scene');
    const [x, top, wide] = svg.getAttribute('viewBox').split(' ').map(Number);
    return { x, top, scale: svg.getBoundingClientRect().width / wide };
  });
const fits = (page) => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);

/** A finger that goes from one place to another in steps; what is asked for of the page just before it is lifted. */
async function finger(page, cdp, from, to, ask) {
  const at = (p) => ({ touchPoints: [{ x: p.x, y: p.y, id: 1 }] });
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', ...at(from) });
  for (let i = 1; i <= 10; i += 1) {
    const p = { x: from.x + ((to.x - from.x) * i) / 10, y: from.y + ((to.y - from.y) * i) / 10 };
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', ...at(p) });
    await frames(page);
  }
  // It rests before it is lifted, so that nothing goes on moving after it.
  await page.waitForTimeout(200);
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', ...at(to) });
  await frames(page, 2);
  const asked = await ask?.();
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await frames(page, 3);
  return asked;
}

/** A place on the wall where nothing stands, in px of the window. */
const bareWall = (page) =>
  page.evaluate(() => {
    const box = document.querySelector('.stage').getBoundingClientRect();
    for (let x = box.left + 60; x < box.right - 60; x += 7) {
      const y = box.top + box.height * 0.62;
      if (!document.elementFromPoint(x, y).closest('[data-part], [data-handle], .part-card')) return { x, y };
    }
    return null;
  });

pageTest('one finger scrolls the page up and down and moves the wall along; two make it larger; a ring is bent', phone, async ({ page, context }) => {
  await example(page);
  const cdp = await context.newCDPSession(page);
  const at = await bareWall(page);
  const before = await shown(page);
  await finger(page, cdp, at, { x: at.x, y: at.y - 200 });
  assert.ok((await scrolled(page)) > 100, `scrolled to ${await scrolled(page)}`);
  assert.deepEqual(await shown(page), before, 'the wall stays');
  await page.evaluate(() => window.scrollTo(0, 0));
  await frames(page, 2);
  await finger(page, cdp, at, { x: at.x - 120, y: at.y });
  const along = await shown(page);
  assert.ok(along.x > before.x + 100, 'moved along the row');
  assert.equal(along.scale, before.scale);
  // Apart by two fingers.
  const two = (d) => ({ touchPoints: [{ x: 195 - d, y: at.y, id: 1 }, { x: 195 + d, y: at.y, id: 2 }] });
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: two(40).touchPoints.slice(0, 1) });
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', ...two(40) });
  for (let d = 45; d <= 90; d += 5) {
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', ...two(d) });
    await frames(page);
  }
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await frames(page, 3);
  const larger = await shown(page);
  assert.ok(larger.scale > along.scale * 1.6, `${along.scale} to ${larger.scale}`);
  assert.equal(await scrolled(page), 0);
  assert.equal(await page.evaluate(() => window.visualViewport.scale), 1, 'not the page');
  // A ring goes with the finger even straight up, and the page stays.
  await page.locator('.stage').focus();
  await page.keyboard.press('1');
  await page.evaluate(() => window.scrollTo(0, 0));
  await frames(page, 2);
  const knob = await page.evaluate(() => {
    const stage = document.querySelector('.stage').getBoundingClientRect();
    for (const e of document.querySelectorAll('[data-handle=tip] .knob')) {
      const b = e.getBoundingClientRect();
      const p = { x: b.x + b.width / 2, y: b.y + b.height / 2 };
      if (p.x > 30 && p.x < 384 && p.y > stage.top + 10 && p.y < stage.bottom - 80) return { ...p, of: e.parentElement.dataset.of };
    }
    return null;
  });
  assert.ok(knob, 'a ring is in sight');
  const wood = () => page.locator(`[data-part="${knob.of}"] .wood`).first().getAttribute('d');
  const was = await wood();
  const held = await finger(page, cdp, knob, { x: knob.x, y: knob.y - 90 }, () => scrolled(page));
  assert.equal(held, 0, 'the page stays under the finger');
  assert.notEqual(await wood(), was, 'it is bent');
  // The card that comes then at the screen's foot covers nothing of the wood: the page goes just so far.
  const { card, low, top } = await page.evaluate((of) => {
    const edges = (selector) => document.querySelector(selector).getBoundingClientRect();
    return { card: edges('.part-card').top, low: edges(`[data-part="${of}"] .wood`).bottom, top: edges('.stage').top };
  }, knob.of);
  assert.ok(card > low && card - low < 30, `wood down to ${low}, the card from ${card}`);
  assert.ok(top >= 0, `the wall from ${top}`);
});

pageTest('the wheel goes along the row where the page has nothing to scroll', { viewport: { width: 1280, height: 700 } }, async ({ page }) => {
  await example(page);
  const box = await page.locator('.stage').boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + 60);
  await page.keyboard.press('+');
  await frames(page, 2);
  const before = await shown(page);
  await page.mouse.wheel(0, 120);
  await frames(page, 3);
  const along = await shown(page);
  assert.ok(along.x > before.x);
  assert.deepEqual([along.top, along.scale], [before.top, before.scale]);
  assert.equal(await scrolled(page), 0);
});

pageTest('the wheel scrolls the page over the wall; Ctrl and Shift with it work the wall', { viewport: { width: 1280, height: 500 } }, async ({ page }) => {
  await example(page);
  const box = await page.locator('.stage').boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + 60);
  const before = await shown(page);
  await page.mouse.wheel(0, 120);
  await page.waitForFunction(() => window.scrollY > 60);
  assert.deepEqual(await shown(page), before);
  await page.evaluate(() => window.scrollTo(0, 0));
  await frames(page, 3);
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, -120);
  await page.keyboard.up('Control');
  await frames(page, 3);
  const larger = await shown(page);
  assert.ok(larger.scale > before.scale * 1.1);
  await page.keyboard.down('Shift');
  await page.mouse.wheel(0, 240);
  await page.keyboard.up('Shift');
  await frames(page, 3);
  const along = await shown(page);
  assert.ok(along.x > larger.x);
  assert.equal(along.scale, larger.scale);
  assert.equal(await scrolled(page), 0);
});

for (const viewport of [{ width: 1280, height: 800 }, { width: 390, height: 844 }]) {
  pageTest(`a tree put into the record anywhere is in sight with its card, ${viewport.width} px wide`, { viewport }, async ({ page }) => {
    await example(page);
    await page.locator('[data-act="correct"]').check({ force: true });
    const field = page.locator('[data-field="add-tree"] input');
    const wrong = page.locator('[data-field="add-tree"] .wrong');
    for (const place of ['16.3 m', '-3 m', '17.9 m']) {
      await field.fill(place);
      await field.press('Enter');
      await frames(page, 3);
      assert.deepEqual(await wrong.allTextContents(), [], place);
      assert.equal(await field.inputValue(), '', 'the field is ready for the next');
      const card = await page.locator('.part-card').boundingBox();
      assert.ok(card.x >= 0 && card.x + card.width <= viewport.width, `${place}: the card from ${card.x} px`);
      const chosen = await page.locator('.stage .chosen .wood').first().boundingBox();
      assert.ok(chosen.x > 0 && chosen.x < viewport.width, `${place}: the tree at ${chosen.x} px`);
      assert.ok(await fits(page), `${place}: the page is no wider than the screen`);
    }
    await field.fill('500 m');
    await field.press('Enter');
    await frames(page, 3);
    assert.match(await wrong.innerText(), like('refusal-tree-place', { value: '500.00 m' }));
    assert.equal(await field.inputValue(), '500 m', 'what was typed stays');
    // Panned far away, the card still stands on the wall.
    await page.locator('.stage').focus();
    for (let i = 0; i < 12; i += 1) await page.keyboard.press('+');
    await frames(page, 2);
    assert.ok(await fits(page));
  });
}

pageTest('showing a finding leaves a view that has the whole row in sight', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.getByRole('button', { name: say('fit-row') }).click();
  await frames(page, 2);
  const whole = await shown(page);
  const findings = page.locator('.finding .said button');
  const count = await findings.count();
  assert.ok(count > 2);
  for (let i = 0; i < count; i += 1) {
    await findings.nth(i).click();
    await frames(page, 2);
    assert.deepEqual(await shown(page), whole, await findings.nth(i).textContent());
  }
});

// A rule that asks of the page or the desk what stands anywhere in it, and says how something else in it looks, has every move style
// all of it anew.
pageTest('a tip in the hand has only what it moves styled anew', {}, async ({ page }) => {
  await example(page);
  const tip = await page.locator('[data-handle="tip"]').filter({ visible: true }).first().boundingBox();
  const [x, y] = [tip.x + tip.width / 2, tip.y + tip.height / 2];
  const move = async (count) => {
    await page.mouse.move(x, y - 4 * count);
    await frames(page, 3);
  };
  await page.mouse.move(x, y);
  await page.mouse.down();
  // The first takes it in the hand.
  await move(1);
  const events = await record(page, async () => {
    for (let count = 2; count <= 6; count += 1) await move(count);
  });
  const held = await page.locator('.handle.held').count();
  await page.mouse.up();
  assert.equal(held, 1);
  const styled = events.filter((e) => e.name === 'UpdateLayoutTree' && e.ph === 'X').map((e) => e.args.elementCount);
  const all = await page.evaluate(() => document.querySelectorAll('*').length);
  assert.ok(styled.length >= 5, `styled ${styled.length} times`);
  assert.ok(Math.max(...styled) < all / 4, `of ${all} elements ${styled}`);
});
