// What is pressed, and what has the focus after it: once means once, nothing is lost, one thing at a time.
import assert from 'node:assert/strict';
import { example, openMatters, part, phone, remedyIn } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

/** How many pieces of work there are. */
async function pieces(page) {
  const said = await page.locator('.work-list summary').textContent();
  // One piece is said in words.
  return said.includes(say('work-title', { count: 0 })) ? 0 : Number(said.match(/\d+/)?.[0] ?? 1);
}

/** Takes back all that was done, and counts the steps. */
async function steps(page) {
  const undo = page.locator('[data-act=undo]');
  let count = 0;
  for (; await undo.isEnabled(); count += 1) {
    await undo.evaluate((e) => e.click());
    await frames(page, 2);
  }
  return count;
}

/** Waits until something was done, and all that was pressed with it has been tried. */
async function worked(page) {
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').matches(':disabled, [aria-disabled=true]'));
  await remedyIn(page);
}
const focused = (page, selector) => page.evaluate((s) => document.activeElement.matches(s), selector);

pageTest('a double press on a remedy works once, and presses nothing that has come to lie there', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  for (const times of [2, 3]) {
    const remedy = await remedyIn(page);
    await remedy.scrollIntoViewIfNeeded();
    const { x, y } = await remedy.boundingBox();
    await page.mouse.move(x + 12, y + 8);
    for (let i = 1; i <= times; i += 1) {
      await page.mouse.down({ clickCount: i });
      await page.mouse.up({ clickCount: i });
      await frames(page, 2);
    }
    await worked(page);
    assert.equal(await steps(page), 1, `${times} presses`);
    // A hand that goes elsewhere is another press at once.
    await page.mouse.click(5, 5);
  }
});

pageTest('a double tap on a remedy works once', phone, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const remedy = await remedyIn(page);
  await remedy.scrollIntoViewIfNeeded();
  const { x, y } = await remedy.boundingBox();
  await page.touchscreen.tap(x + 12, y + 8);
  await page.touchscreen.tap(x + 13, y + 9);
  await worked(page);
  assert.equal(await steps(page), 1);
  assert.equal(await page.locator('.part-card').count(), 0, 'nothing on the wall was pressed');
});

pageTest('what a key has closed opens again by a press at the same place, however soon', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const hand = page.locator('[data-act=hand-out]');
  await hand.scrollIntoViewIfNeeded();
  const { x, y } = await hand.boundingBox();
  const sheet = page.locator('dialog.sheet[open]');
  // The first time what it opens is loaded; once that is there, two presses fall within the time of a double one.
  for (let time = 1; time <= 3; time += 1) {
    await page.mouse.click(x + 12, y + 8);
    await sheet.waitFor({ timeout: 5000 });
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
  }
});

pageTest('of presses that go on each acts that comes late enough after the last that did', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await remedyIn(page);
  const more = page.locator('[data-act="each"]').first();
  await more.scrollIntoViewIfNeeded();
  await more.evaluate((e) => {
    globalThis.acted = 0;
    new MutationObserver((all) => (globalThis.acted += all.length)).observe(e, { attributeFilter: ['aria-expanded'] });
  });
  const { x, y } = await more.boundingBox();
  for (let i = 0; i < 3; i += 1) {
    await page.mouse.click(x + 12, y + 8);
    await page.waitForTimeout(400);
  }
  // The first and the third, or all where the machine is slow.
  assert.ok((await page.evaluate(() => globalThis.acted)) >= 2);
});

/** Lets a test keep from the helper what it is told: nothing is tried then. */
const keepFromHelper = (page) =>
  page.addInitScript(() => {
    const post = Worker.prototype.postMessage;
    const kept = [];
    let keeps = false;
    Worker.prototype.postMessage = function (...what) {
      if (keeps) kept.push(() => post.apply(this, what));
      else post.apply(this, what);
    };
    globalThis.helperHears = (hears) => {
      keeps = !hears;
      if (hears) for (const tell of kept.splice(0)) tell();
    };
  });
const helperHears = (page, hears) => page.evaluate((h) => globalThis.helperHears(h), hears);
const remedy = (page, key, args = {}) => page.locator('[data-remedy]', { hasText: like(key, args) }).first();
/** Presses in the midst of it, whatever it is. */
async function pressAt(page, what) {
  await what.scrollIntoViewIfNeeded();
  const { x, y } = await what.boundingBox();
  await page.mouse.click(x + 12, y + 8);
  await frames(page, 2);
}

pageTest('a remedy that is not tried yet works nothing: pressed, it is done once it is offered, and its line stays', { prepare: keepFromHelper }, async ({ page }) => {
  await example(page);
  await remedyIn(page);
  await openMatters(page);
  await helperHears(page, false);
  await pressAt(page, remedy(page, 'remedy-fill-forward'));
  const done = await page.locator('.work-list').textContent();
  assert.equal(await page.locator('[data-remedy]:not([aria-disabled])').count(), 0, 'each waits');
  // One that stood there before.
  const next = remedy(page, 'remedy-stub');
  await next.evaluate((e) => (globalThis.line = e));
  await pressAt(page, next);
  assert.equal(await page.locator('.work-list').textContent(), done, 'nothing is done');
  assert.match(await page.locator('[role=status] .notice').textContent(), like('said-remedy-waits'));
  // The line's own element is under the hand all the while.
  await page.evaluate(() => {
    globalThis.stood = new Promise((told) => {
      new MutationObserver(() => told(globalThis.line.isConnected)).observe(globalThis.line, { attributeFilter: ['aria-disabled'] });
    });
  });
  await helperHears(page, true);
  assert.equal(await page.evaluate(() => globalThis.stood), true);
  await page.waitForFunction((done) => document.querySelector('.work-list').textContent !== done, done);
  assert.equal(await steps(page), 2);
});

pageTest('a remedy that is withdrawn when it is tried is not done, and that is said', { prepare: keepFromHelper }, async ({ page }) => {
  await helperHears(page, false);
  await example(page, 'uneven-uprights.json');
  const words = await remedy(page, 'remedy-straighten').textContent();
  const lay = page.locator('[data-remedy]').getByText(words, { exact: true });
  assert.equal(await lay.getAttribute('aria-disabled'), 'true');
  await pressAt(page, lay);
  await helperHears(page, true);
  assert.match(await page.locator('[role=alert] .notice').textContent(), like('said-remedy-withdrawn'));
  await remedyIn(page);
  assert.equal(await lay.count(), 0);
  assert.equal(await steps(page), 0);
  // What was left out does not come and go again with the next change.
  await helperHears(page, false);
  await page.locator('[data-remedy]').first().evaluate((e) => e.click());
  await frames(page, 2);
  assert.ok((await page.locator('[data-remedy][aria-disabled]').count()) > 0);
  assert.equal(await lay.count(), 0);
});

pageTest('keys press as often as they are pressed, and the focus stays in the list', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const place = () =>
    page.evaluate(() => {
      const all = [...document.querySelectorAll('.findings .finding')];
      return all.indexOf(document.activeElement.closest('.finding'));
    });
  // One by one, as they are listed in their matter.
  await remedyIn(page);
  await openMatters(page);
  const each = page.locator('.findings .each').first();
  await (await remedyIn(each)).focus();
  for (let time = 1; time <= 3; time += 1) {
    const [before, at] = [await pieces(page), await place()];
    await page.keyboard.press('Enter');
    await frames(page, 3);
    assert.ok((await pieces(page)) > before, `${time}`);
    assert.equal(await place(), at, 'on the finding that has come in its place');
    // The next Enter would look there and work nothing; the Tab key goes on from there through the list.
    assert.equal(await focused(page, '.plain'), true);
    await page.keyboard.press('Tab');
    assert.equal(await focused(page, '.findings *'), true);
    // Nor is it lost when the remedies that waited are offered.
    const remedy = await remedyIn(each);
    await frames(page, 3);
    assert.equal(await focused(page, '.findings *'), true, 'once remedies are offered again');
    await remedy.focus();
  }
  // All of one kind at once: its button goes with them.
  await page.locator('[data-act=mend-all]').first().focus();
  await page.keyboard.press('Enter');
  await frames(page, 3);
  assert.notEqual(await place(), -1);
  // The list of work too.
  await page.locator('.work-list li .link').nth(1).focus();
  await page.keyboard.press('Enter');
  await frames(page, 3);
  assert.equal(await page.evaluate(() => [...document.querySelectorAll('.work-list li')].indexOf(document.activeElement.closest('li'))), 1);
});

pageTest('what is pressed is not taken from a hand that has left the list', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.locator('.finding .plain').first().focus();
  // A press on the bare page lets go of the focus; a change that comes later does not take it.
  await page.mouse.click(1270, 150);
  await page.evaluate(() => document.activeElement.blur());
  await frames(page, 2);
  await page.keyboard.press('Control+z');
  await page.locator('.notice').waitFor();
  await frames(page, 3);
  assert.equal(await page.evaluate(() => document.activeElement.tagName), 'BODY');
});

pageTest('the Tab key comes to the wall before what stands under it', {}, async ({ page }) => {
  await example(page);
  await page.locator('[data-act=correct]').focus();
  const order = [];
  const under = 'view-wires';
  for (let i = 0; i < 16 && !order.includes(under); i += 1) {
    await page.keyboard.press('Tab');
    order.push(await page.evaluate(() => document.activeElement.closest('.view')?.id ?? document.activeElement.dataset.act ?? document.activeElement.classList[0]));
  }
  assert.ok(order.includes(under) && order.includes('stage') && order.indexOf('stage') < order.indexOf(under), order.join(', '));
});

pageTest('Escape leaves one thing at a time, the innermost first', {}, async ({ page }) => {
  await example(page);
  const chosen = () => page.locator('.stage .shoot.chosen').count();
  const planned = await pieces(page);
  // A number that is asked for, then the card, then the choice.
  await page.locator('.part-list summary').click();
  await part(page, 'name-upright', { number: 1, tree: 1 }).click();
  await page.locator('.part-card').waitFor();
  const tip = page.locator('.part-card [data-act=act-tip]');
  await tip.click();
  await page.locator('.part-card .ask label input').waitFor();
  await frames(page, 2);
  assert.equal(await focused(page, '.ask input'), true);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.ask').count(), 0);
  assert.equal(await page.locator('.part-card').count(), 1, 'the card stays');
  assert.equal(await focused(page, '[data-act=act-tip]'), true);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.part-card').count(), 0);
  assert.equal(await chosen(), 1, 'the choice stays');
  // A tip in the hand goes back, and stays chosen.
  const knob = await page.locator('.handle.chosen .knob').boundingBox();
  await page.mouse.move(knob.x + 5, knob.y + 5);
  await page.mouse.down();
  await page.mouse.move(knob.x + 60, knob.y + 40, { steps: 4 });
  await frames(page, 2);
  assert.equal(await page.locator('.handle.held').count(), 1);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.handle.held').count(), 0);
  assert.equal(await chosen(), 1, 'what was in the hand stays chosen');
  await page.mouse.up();
  await frames(page, 2);
  assert.equal(await pieces(page), planned, 'nothing was done');
  // In the record: what is offered, then the choice, then the record itself.
  await page.locator('[data-act=correct]').check();
  await frames(page, 2);
  await page.locator('.stage').focus();
  assert.equal(await chosen(), 1, 'the record opens with what is chosen');
  assert.equal(await page.locator('.part-card').count(), 0, 'its card was closed and stays so');
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await chosen(), 0);
  assert.equal(await page.locator('[data-act=correct]').isChecked(), true, 'the record outlasts the choice');
  const stage = await page.locator('.stage').boundingBox();
  await page.mouse.click(stage.x + 300, stage.y + 12);
  await page.locator('.offer').waitFor();
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('.offer').count(), 0);
  assert.equal(await page.locator('[data-act=correct]').isChecked(), true, 'the record stays open');
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('[data-act=correct]').isChecked(), false);
});

pageTest('on a phone the card leaves wire and tip in sight, and a press closes it', phone, async ({ page }) => {
  await example(page);
  const covered = async (of) => {
    await page.locator('.part-card').waitFor();
    await frames(page, 4);
    const card = await page.locator('.part-card').boundingBox();
    const knob = await page.locator(`[data-handle=tip][data-of="${of}"] .knob`).boundingBox();
    const wire = await page.locator('.stage .cordon-wire').evaluate((e) => e.getBoundingClientRect().bottom);
    assert.ok(knob.y + knob.height <= card.y, `the tip at ${knob.y}, the card from ${card.y}`);
    assert.ok(wire <= card.y, `the wire at ${wire}, the card from ${card.y}`);
    assert.ok(knob.y >= 0, `the tip at ${knob.y}`);
  };
  // By a finger on the wall, where its head stands over it.
  const ring = await page.locator('[data-handle=tip]').evaluateAll((all) => {
    const inside = all.find((e) => e.getBoundingClientRect().left > 40 && e.getBoundingClientRect().right < 350);
    return inside.dataset.of;
  });
  const knob = await page.locator(`[data-handle=tip][data-of="${ring}"] .knob`).boundingBox();
  await page.touchscreen.tap(knob.x + knob.width / 2, knob.y + knob.height / 2);
  await covered(ring);
  const close = page.locator('.part-card').getByRole('button', { name: say('card-close') });
  const box = await close.boundingBox();
  assert.ok(box.width >= 40 && box.height >= 40, JSON.stringify(box));
  await close.tap();
  await page.locator('.part-card').waitFor({ state: 'detached' });
  assert.equal(await page.locator('.stage .shoot.chosen').count(), 1, 'the part stays chosen');
});

pageTest('what keys and the card do to a shoot is read out, with its name and how it is now', {}, async ({ page }) => {
  await example(page);
  const told = async () => {
    await frames(page, 2);
    return (await page.locator('main > [role=status]').textContent()).trim();
  };
  const stage = page.locator('.stage');
  await page.locator('.part-list summary').click();
  const choose = async (key, args) => {
    await part(page, key, args).click();
    await page.locator('.part-card').waitFor();
  };
  await choose('name-upright', { number: 2, tree: 1 });
  const name = await told();
  const bent = [];
  for (const key of ['ArrowUp', 'ArrowUp', 'ArrowUp']) {
    await stage.press(key);
    bent.push(await told());
  }
  for (const line of bent) assert.match(line, like('work-line', { part: name, work: like('work-stand', { lean: /.*\d.*/ }) }));
  assert.equal(new Set(bent).size, 3, bent.join('; '));
  await stage.press('ArrowRight');
  assert.notEqual(await told(), name);
  await stage.press('ArrowLeft');
  assert.equal(await told(), name);
  await stage.press('Delete');
  assert.equal(await told(), say('work-line', { part: name, work: say('work-remove') }));
  await stage.press('Control+z');
  assert.equal(await told(), '', 'undo speaks for itself, and nothing is chosen');
  await choose('name-upright', { number: 2, tree: 1 });
  await page.locator('.part-card [data-act=act-remove]').click();
  assert.equal(await told(), say('work-line', { part: name, work: say('work-remove') }));
  await stage.press('Control+z');
  // In the record it is the number that was measured.
  await page.locator('[data-act=correct]').check();
  await choose('name-upright', { number: 2, tree: 1 });
  const found = await told();
  await stage.press('ArrowUp');
  assert.match(await told(), like('work-line', { part: found, work: new RegExp(`${say('measure-lean')} .*\\d`) }));
  await stage.press('Delete');
  assert.equal(await told(), say('work-line', { part: found, work: say('record-drop-shoot') }));
});
