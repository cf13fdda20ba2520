// The main job in Spanish: the language is chosen, a table in Spanish comes in, its gap is closed, a length is typed with a
// decimal comma, the row is printed; and nothing of another language is loaded before it is chosen.
import assert from 'node:assert/strict';
import { matter, openMatters, phone, remedyIn } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { Words } from './words.mjs';

const es = Words.read('es');
const say = es.say.bind(es);
const like = es.like.bind(es);

const TABLE = [
  'hoja que viene;3',
  'alambre;0,50 m;plástico',
  'alambre;1,00 m;plástico',
  'altura del muro;2,20 m',
  'árbol;lugar (m);tipo;largo (m);grosor (mm);lado;postura;temporada',
  '1;0,00;guía;1,40;30;derecha;45;0',
  '1;0,70;vertical;1,15;12;;;1',
  '1;0,95;vertical;1,20;13;;;1',
  '1;1,20;vertical;1,20;12;;;1',
  '2;1,50;guía;1,60;30;der;45;0',
  '2;2,20;vertical;1,10;12;;;1',
  '2;2,45;vertical;1,30;13;;;1',
  '3;3,00;guía;1,75;30;derecha;45;0',
  '3;3,70;vertical;1,10;12;;;1',
].join('\n');

const PART = /split_languages/;

/** The page's requests for a part of the module that holds other languages. */
function asked(page) {
  const out = [];
  page.on('request', (request) => PART.test(request.url()) && out.push(request.url()));
  return out;
}

async function speak(page, code = 'es') {
  await page.locator('[data-field=language]').selectOption(code);
  await page.locator('.start h1', { hasText: Words.read(code).say('start-title') }).waitFor();
}

async function bring(page) {
  const buffer = Buffer.from(TABLE);
  await page.locator('input[type=file]').first().setInputFiles({ name: 'hilera.csv', mimeType: 'text/csv', buffer });
  await page.locator('dialog.sheet[open] [data-act=import-use]').waitFor();
  await frames(page, 2);
}

/** All that a place says: numbers with a point between digits, or in English, would be slips. */
async function speaksSpanish(place) {
  const text = await place.innerText();
  assert.doesNotMatch(text, /\d\.\d+ (m|mm|cm|t\/ha|%)|\b(the|and|with|trees?|leaf|wire)\b/i);
  return text;
}

// Without the worker, which would bring the module sooner than its loading can be seen.
const unkept = { context: { serviceWorkers: 'block' } };

pageTest('another language is loaded once it is chosen, and kept', unkept, async ({ page }) => {
  const parts = asked(page);
  await page.reload();
  await page.locator('.start h1').waitFor();
  if (!process.env.CORDONRY_LANGUAGE) assert.deepEqual(parts, []);
  await speak(page);
  assert.equal(await page.getAttribute('html', 'lang'), 'es');
  assert.ok(parts.length > 0 || page.url().startsWith('file:'), 'its texts came');
  await speaksSpanish(page.locator('.start'));
  assert.deepEqual(await accessibility(page), []);
  // Loaded again it stands there in Spanish from the beginning.
  await page.route(/_bg\.wasm$/, (route) => setTimeout(() => route.continue(), 500));
  await page.reload({ waitUntil: 'commit' });
  await page.locator('#loading [role=status]', { hasText: say('page-loads') }).waitFor();
  await page.locator('.start h1', { hasText: say('start-title') }).waitFor();
  await page.unroute(/_bg\.wasm$/);
  // On the desk the choice stands under Files.
  await page.locator('[data-example$="third-leaf.json"]').first().click();
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('.doings .more summary', { hasText: say('files') }).click();
  const choice = page.locator('.doings [data-field=language]');
  assert.equal(await choice.inputValue(), 'es');
  await page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();
  await choice.selectOption('en');
  await page.locator('.doings .more summary', { hasText: Words.read('en').say('files') }).waitFor();
  assert.equal(await page.getAttribute('html', 'lang'), 'en');
});

pageTest('who reads Spanish is met in Spanish', { context: { locale: 'es-MX' } }, async ({ page }) => {
  await page.locator('.start h1', { hasText: say('start-title') }).waitFor();
});

pageTest('examples and lessons are told in Spanish, and shown to a class with the answer put off', {}, async ({ page }) => {
  await speak(page);
  await page.locator('[data-example$="one-way-or-opposed.json"]').click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.match(await page.locator('.row-name').inputValue(), /^Lección: /);
  await speaksSpanish(page.locator('body'));
  await page.locator('[data-act=present]').click();
  await frames(page, 3);
  const asked = await speaksSpanish(page.locator('body'));
  assert.match(asked, /Pregunta: ¿por qué/);
  assert.ok(!asked.includes('cubren un espacio dos veces'), asked);
});

pageTest('the main job is done in Spanish, with decimal commas', {}, async ({ page }) => {
  await speak(page);
  await bring(page);
  assert.equal(await page.locator('#import-title').innerText(), say('import-title', { row: 'hilera' }));
  assert.match(await page.locator('dialog.sheet').innerText(), like('import-taken', { lines: 9, trees: 3, left: 0 }));
  await speaksSpanish(page.locator('dialog.sheet'));
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="3"]');
  await page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();

  // What is found is told with commas, and a remedy closes the gap.
  const gap = matter(page, 'cordon-gap').first();
  assert.match(await gap.innerText(), /\d,\d\d m/);
  const remedy = await remedyIn(gap);
  await remedy.click();
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').disabled);
  assert.equal(await page.locator('[data-act=undo]').getAttribute('title'), say('undo-step', { step: say('step-remedy') }));
  await openMatters(page);
  const told = await page.locator('.finding .said').allInnerTexts();
  assert.ok(told.some((text) => like('finding-uprights-too-few', { tree: 1 }).test(text)), told.join('\n'));
  await speaksSpanish(page.locator('.findings'));

  // A length is typed as it is written, or with a point; what could be two numbers is refused.
  await page.locator('[data-act=correct]').check();
  await page.waitForSelector('.stage.correcting');
  await page.locator('.part-list summary').click();
  const upright = like('name-of-tree', { part: like('name-upright', { number: 2, of: 3 }), tree: 1 });
  await page.locator('.part-list button', { hasText: upright }).first().click();
  const length = page.locator('.part-card [data-field="measure-length"] input');
  const type = async (text) => {
    await length.fill(text);
    await length.press('Enter');
    await frames(page, 2);
  };
  await type('1,25 m');
  assert.equal(await length.inputValue(), '1,25 m');
  await type('1.3');
  assert.equal(await length.inputValue(), '1,30 m');
  await type('1 30');
  const wrong = page.locator('.part-card [data-field="measure-length"] [role=alert]');
  assert.match(await wrong.innerText(), like('field-no-length', { text: '1 30' }));
  await type('1,35 m');
  await speaksSpanish(page.locator('.part-card'));
  await page.locator('[data-act=correct]').uncheck();

  // The helper words its draft in Spanish too.
  await page.locator('[data-act=draft]').click();
  const draft = page.locator('.draft');
  await draft.locator('[data-act=draft-take]:not([aria-disabled])').waitFor();
  await speaksSpanish(draft);
  await draft.press('Escape');

  const laid = () => page.evaluate(() => dispatchEvent(new Event('beforeprint')) && document.querySelector('#print-sheets') !== null);
  while (!(await laid())) await page.evaluate(() => dispatchEvent(new Event('afterprint')) && new Promise(requestAnimationFrame));
  const sheets = await page.$eval('#print-sheets', (e) => [...e.shadowRoot.querySelectorAll('svg[role=img] text')].map((t) => t.textContent).join('\n'));
  assert.match(sheets, like('draw-page', { page: 1 }));
  assert.doesNotMatch(sheets, /\d\.\d+ m\b|\b(the|and|with|trees?|leaf|wire)\b/i);
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));

  // It comes back as it was, in Spanish.
  await page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();
  await page.reload();
  await page.waitForSelector('.stage [data-tree="3"]');
  await page.locator('.part-list summary').click();
  await page.locator('.part-list button', { hasText: upright }).first().click();
  assert.match(await page.locator('.part-card').innerText(), /1,35 m/);
});

pageTest('nothing is wider than a telephone in Spanish', phone, async ({ page }) => {
  await speak(page);
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.equal(await wide(), 0);
  await bring(page);
  assert.equal(await wide(), 0);
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="3"]');
  await frames(page, 3);
  assert.equal(await wide(), 0);
});
