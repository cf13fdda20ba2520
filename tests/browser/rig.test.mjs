// That the rig sees what it must: a page at fault fails its test.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accessibility, base, open, sharedBrowser } from './rig.mjs';

const browser = sharedBrowser();

// A page of the tests' own, in the place of the program's.
async function faults(body, { headers = {}, look = async () => [] } = {}) {
  const opened = await open({
    browser: await browser(),
    prepare: (page) =>
      page.route(base, (route) => route.fulfill({ contentType: 'text/html', headers, body: `<!doctype html>${body}` })),
  });
  try {
    await opened.page.waitForTimeout(200);
    return { faults: [...opened.faults], found: await look(opened.page), opened };
  } finally {
    await opened.close();
  }
}

const icon = '<link rel="icon" href="data:,">';

test('a page without fault has none', async () => {
  const { faults: seen } = await faults(`${icon}<p>Well</p><script>console.log('well')</script>`);
  assert.deepEqual(seen, []);
});

test('an error on the console is seen', async () => {
  const { faults: seen } = await faults(`${icon}<script>console.error('ill')</script>`);
  assert.match(seen.join(), /console: ill/);
});

test('an uncaught exception and a lost promise are seen', async () => {
  const { faults: seen } = await faults(
    `${icon}<script>setTimeout(() => { throw new Error('one') }); Promise.reject(new Error('two'))</script>`,
  );
  assert.match(seen.join(), /one/);
  assert.match(seen.join(), /two/);
});

test('a request to another origin is seen', async () => {
  const { faults: seen } = await faults(`${icon}<img alt="" src="http://127.0.0.1:1/x.png">`);
  assert.match(seen.join(), /elsewhere: http:\/\/127\.0\.0\.1:1\/x\.png/);
});

test('a breach of the policy is seen', async () => {
  const { faults: seen } = await faults(`${icon}<script>1</script>`, { headers: { 'Content-Security-Policy': "script-src 'self'" } });
  assert.match(seen.join(), /Content Security Policy/);
});

test('a fault of accessibility is found', async () => {
  const { found } = await faults(`${icon}<button></button>`, { look: accessibility });
  assert.match(found.join('\n'), /button-name/);
});

test('an allowed fault passes', async () => {
  const { opened } = await faults(`${icon}<script>console.error('meant')</script>`);
  opened.allow(/meant/);
  assert.deepEqual(opened.faults, []);
});
