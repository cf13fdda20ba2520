// A browser that is killed in the midst of edits loses no more than the last half second of them.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { kills } from './kill.mjs';

test('killed five times in bursts of edits, the browser loses half a second of edits at most', { timeout: 240_000 }, async (t) => {
  const told = await kills(5);
  for (const { made, lost, stretch } of told) t.diagnostic(`of ${made} edits ${lost} lost, the first of them ${Math.round(stretch)} ms before the last edit`);
  for (const { made, stretch } of told) {
    assert.ok(made > 5, `${made} edits were made`);
    assert.ok(stretch <= 500, `${stretch} ms of edits were lost`);
  }
});
