// The main job, in Chromium and in Firefox: a measured row comes in, a leader is bent, its gap closes, a bud is kept, the
// light is looked at, the row is printed; and what is kept comes back.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { inflateSync } from 'node:zlib';
import { firefoxTest } from './firefox.mjs';
import { ChromiumHands, FirefoxHands } from './hands.mjs';
import { oneFile, pageTest } from './rig.mjs';
import { like } from './words.mjs';

const example = (name) => new URL(`../../examples/${name}`, import.meta.url).pathname;

const BARE = '.finding[data-finding^="cordon-gap:"]';
const saved = (hands) => hands.says('.kept-state', like('kept-saved'));

/** Where the page comes from: a server, and a disk where the page in one file has been built. */
const from = [['', {}], ...(oneFile ? [[', in one file from a disk', { path: oneFile }]] : [])];

/** One test in both browsers: `run` gets the hands that work there, and what the rig opened. */
function both(name, run) {
  for (const [where, options] of from) {
    pageTest(`${name}${where}`, options, (opened) => run(new ChromiumHands(opened.page), opened));
    firefoxTest(`${name}${where}`, options, (opened) => run(new FirefoxHands(opened.page), opened));
  }
}

both('a measured table comes in with its bad lines named, and comes back after a reload', async (hands) => {
  await hands.bring(example('measured-40.csv'));
  assert.match(await hands.text('.sheet'), like('import-taken', { trees: 40 }));
  const lines = await hands.texts('.sheet .bad-lines th');
  assert.ok(lines.length >= 3, `bad lines: ${lines}`);
  await hands.press('[data-act=import-use]');
  await hands.wait('.stage [data-tree="1"]');
  const fill = await hands.figure('figure-fill');
  assert.match(fill, /\d+ %/);
  await saved(hands);
  await hands.reload();
  await hands.wait('.stage [data-tree="1"]');
  assert.equal(await hands.figure('figure-fill'), fill);
  assert.equal(await hands.value('.row-name'), 'measured-40');
});

both('a tip is dragged until its gap closes; the finding goes with the button still down; undo brings both back', async (hands) => {
  const { mouse } = hands;
  await hands.example('third-leaf.json');
  assert.equal(await hands.count(BARE), 1);
  assert.match(await hands.text(BARE), like('finding-cordon-gap'));
  const filled = await hands.figure('figure-fill');
  // The end shoot of tree 5 stands at its leader's end.
  await hands.press(`${BARE} .said button`);
  await hands.frames(2);
  const shoot = await hands.middle('[data-part="5/1"] .wood');
  await mouse.click(shoot.x, shoot.y);
  const tip = await hands.middle('[data-handle=tip][data-of="5/1"] .knob');
  await mouse.move(tip.x, tip.y);
  await mouse.down();
  // Down along an arc to the right, as a hand would.
  const foot = await hands.middle('[data-handle][data-of="5/0"] .knob');
  const length = Math.hypot(tip.x - foot.x, tip.y - foot.y);
  for (let degrees = 80; degrees >= 0; degrees -= 8) {
    const a = (degrees * Math.PI) / 180;
    await mouse.move(foot.x + length * Math.cos(a), foot.y - length * Math.sin(a));
    await hands.frames(1);
  }
  await hands.frames(2);
  assert.deepEqual(await hands.texts(BARE), [], 'the finding goes while the button is down');
  assert.notEqual(await hands.figure('figure-fill'), filled);
  await mouse.up();
  await hands.frames(2);
  assert.equal(await hands.count(BARE), 0);
  await hands.press('[data-act=undo]');
  assert.equal(await hands.count(BARE), 1);
  assert.equal(await hands.figure('figure-fill'), filled);
  await hands.press('[data-act=redo]');
  assert.equal(await hands.count(BARE), 0);
  await hands.key('Control+z');
  assert.equal(await hands.count(BARE), 1);
});

both('a press on the cordon keeps a bud, which stays after a reload', async (hands) => {
  const BUD = '.stage .shoot.bud';
  await hands.example('third-leaf.json');
  const before = await hands.count(BUD);
  const wood = await hands.box('[data-part="2/0"] .wood');
  // On the laid part, between the two uprights that stand widest apart.
  const places = await hands.page.$$eval('[data-tree="2"] .shoot.upright .wood', (all) =>
    all.map((e) => e.getBoundingClientRect()).map((box) => box.left + box.width / 2).sort((a, b) => a - b),
  );
  const gaps = places.slice(1).map((x, i) => [x - places[i], (x + places[i]) / 2]).sort((a, b) => b[0] - a[0]);
  const x = gaps[0][1];
  // Down through the wood until the page says what a press would do.
  let { y } = wood;
  for (; y < wood.y + 40; y += 2) {
    await hands.mouse.move(x, y);
    await hands.frames(1);
    if ((await hands.count('.ghost-bud')) > 0) break;
  }
  assert.equal(await hands.count('.ghost-bud'), 1, 'a bud is offered on the wood');
  await hands.mouse.click(x, y);
  await hands.frames(2);
  assert.equal(await hands.count(BUD), before + 1);
  await saved(hands);
  await hands.reload();
  await hands.wait('.stage [data-tree="2"]');
  assert.equal(await hands.count(BUD), before + 1);
});

both('damaged and foreign files are refused by name, and the row on the desk stays', async (hands) => {
  const bytes = await readFile(example('third-leaf.json'), 'utf8');
  const noTable = (kind) => like('refusal-file-kind', { kind, wanted: 'table' });
  for (const [text, name, why] of [
    [bytes.slice(0, bytes.length / 2), 'cut.json', like('refusal-file-cut')],
    [bytes.replace(/"version": \d+/, '"version": 999'), 'newer.json', like('refusal-file-too-new', { value: '999' })],
    ['{"format":"something-else"}', 'other.json', like('refusal-file-format', { value: 'something-else' })],
    ['tree,length\n', 'short.csv', like('refusal-csv-columns')],
    ['PK\u0003\u0004', 'sheet.xlsx', noTable('workbook')],
    ['<!doctype html>', 'saved.html', noTable('page')],
    ['[]', 'list.json', noTable('list')],
  ]) {
    await hands.bring(name, text);
    assert.match(await hands.text('.notice.grave'), like('file-refused', { file: name, why }));
    await hands.press('.notice.grave button');
    await hands.gone('.notice.grave');
  }
  // A table of which nothing is understood is shown, but is no row to use.
  await hands.bring('head.csv', 'tree,place,kind,length\n');
  await hands.wait('.sheet [data-act=import-use]:disabled');
  await hands.press('.sheet .choices button:enabled');
  await hands.gone('.sheet');
  await hands.example('third-leaf.json');
  await hands.bring('list.json', '[]');
  await hands.wait('.notice.grave');
  assert.ok(await hands.isShown('.stage [data-tree="1"]'));
});

both('light comes and goes at a press, and asks for nothing while it is off', async (hands) => {
  await hands.example('overdue-renewal.json');
  assert.equal(await hands.count('.sky-line'), 0);
  assert.equal(await hands.count('[data-figure=figure-light-caught]'), 0);
  const before = await hands.count('.finding');
  await hands.press('[data-act=light]');
  await hands.says('[data-figure=figure-light-caught]', /^\s*[0-9]/);
  assert.ok(await hands.isShown('canvas.light-map'));
  await hands.wait('.finding[data-finding^="light-gap:"]');
  assert.match((await hands.texts('.finding[data-finding^="light-gap:"]')).join('\n'), like('finding-light-gap', { rank: 1 }));
  // The key does the same as the button.
  await hands.page.$eval('.stage', (e) => e.focus());
  await hands.key('l');
  await hands.frames(2);
  assert.ok(!(await hands.isShown('canvas.light-map')));
  assert.equal(await hands.count('.finding'), before);
});

/** The sizes of a printed file's pages, in points; its objects may lie packed. */
function pages(file) {
  const text = Buffer.from(file).toString('latin1');
  const packed = [...text.matchAll(/stream\r?\n([^]*?)\r?\nendstream/g)].map(([, stream]) => {
    try {
      return inflateSync(Buffer.from(stream, 'latin1')).toString('latin1');
    } catch {
      return '';
    }
  });
  return [text, ...packed].flatMap((part) => [...part.matchAll(/\/MediaBox\s*\[\s*([^\]]*)\]/g)].map(([, box]) => box.trim().split(/\s+/).map(Number)));
}

/** Has the sheets laid: what lays them is loaded after the row, and a print that comes before it finds none. */
async function lay(page) {
  const laid = () => page.evaluate(() => dispatchEvent(new Event('beforeprint')) && document.querySelector('#print-sheets') !== null);
  while (!(await laid())) await page.evaluate(() => dispatchEvent(new Event('afterprint')) && new Promise(requestAnimationFrame));
}

both('the whole row is laid on sheets for printing', async (hands) => {
  const { page } = hands;
  await hands.bring(example('measured-40.csv'));
  await hands.press('[data-act=import-use]');
  await hands.wait('.stage [data-tree]');
  await lay(page);
  const trees = await page.$eval('#print-sheets', (e) =>
    [...e.shadowRoot.querySelectorAll('svg[role=img]')].map((sheet) => new Set([...sheet.querySelectorAll('.tree-number')].map((n) => n.textContent)).size),
  );
  const walls = trees.filter((count) => count > 0);
  assert.ok(walls.length >= 2 && walls.every((count) => count > 5), `trees on each sheet: ${trees}`);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  assert.equal(await hands.count('#print-sheets'), 0);
  assert.ok(await hands.isShown('.stage'));
});

both('what is printed is a page for each sheet, as large as the paper that is chosen, on its side', async (hands) => {
  const { page } = hands;
  await hands.example('third-leaf.json');
  for (const [paper, wide, high] of [
    ['a4', 841.9, 595.3],
    ['letter', 792, 612],
  ]) {
    await hands.press('.doings .more summary');
    await hands.choose('[data-field=paper]', paper);
    await lay(page);
    const sheets = await page.$eval('#print-sheets', (e) => e.shadowRoot.querySelectorAll('svg[role=img]').length);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    assert.ok(sheets > 1);
    const printed = pages(await hands.print());
    assert.equal(printed.length, sheets, `${paper}: ${JSON.stringify(printed)}`);
    for (const [, , width, height] of printed) {
      // In points.
      assert.ok(Math.abs(width - wide) < 1 && Math.abs(height - high) < 1, `${paper}: ${JSON.stringify(printed)}`);
    }
  }
  // The choice is kept with this device's settings.
  await saved(hands);
  await hands.reload();
  await hands.wait('.stage [data-tree]');
  assert.equal(await page.$eval('[data-field=paper]', (e) => e.value), 'letter');
  assert.equal(await hands.count('#print-sheets'), 0);
  assert.ok(await hands.isShown('.stage'));
});
