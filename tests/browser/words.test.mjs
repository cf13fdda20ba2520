// That a test is told of a text that is not there, and that a pattern is as strict as what it is given.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Words, like, say } from './words.mjs';

const words = new Words('en', [
  `
plain = Two words. (Not one?)
count = { $count ->
    [0] nothing
    [one] one tree at { $place }
   *[other] { $count } trees at { $place }
}
side = to the { $side ->
    [left] left
   *[right] right
}, rising
within = { plain } – { $why }
value = { $value }
`,
]);

test('a text that is missing is named', () => {
  for (const ask of [say, like, words.say.bind(words), words.like.bind(words)]) {
    assert.throws(() => ask('no-such-text'), /no-such-text/);
  }
  assert.throws(() => new Words('en', ['a = 1', 'a = 2']), /"a"/);
  assert.throws(() => Words.read('none'), /none/);
});

test('a whole text needs all its values', () => {
  assert.equal(words.say('count', { count: 1, place: '3 m' }), 'one tree at 3 m');
  assert.equal(words.say('count', { count: 1200, place: '3 m' }), '1200 trees at 3 m');
  assert.equal(words.say('within', { why: 'so' }), 'Two words. (Not one?) – so');
  assert.throws(() => words.say('count', { count: 2 }), /count: .*place/);
});

test('a pattern holds what it is given, and lets the rest be anything', () => {
  for (const [key, args, text, expected] of [
    ['plain', {}, 'Said: Two\u00a0words. (Not one?)', true],
    ['plain', {}, 'Two words, (Not one?)', false],
    ['count', {}, '7 trees at 3 m', true],
    ['count', {}, 'one tree at 3 m', true],
    ['count', {}, '7 shrubs at 3 m', false],
    ['count', { count: 1 }, 'one tree at 3 m', true],
    ['count', { count: 1 }, '7 trees at 3 m', false],
    ['count', { count: 7 }, '8 trees at 3 m', false],
    ['count', { count: 0 }, 'nothing', true],
    ['count', { place: '3.5 m' }, '7 trees at 3.5\u00a0m', true],
    ['count', { place: '3.5 m' }, '7 trees at 325 m', false],
    ['side', { side: 'left' }, 'to the left, rising', true],
    ['side', { side: 'left' }, 'to the right, rising', false],
    ['side', {}, 'to the right, rising', true],
    ['side', {}, 'To the right, rising', true],
    ['side', {}, 'to the Right, rising', false],
    ['within', { why: /a|b/ }, 'Two words. (Not one?) – b', true],
    ['within', { why: /a|b/ }, 'Two words. (Not one?) – c', false],
    ['within', { why: words.like('side', { side: 'left' }) }, 'Two words. (Not one?) – to the left, rising', true],
  ]) {
    assert.equal(words.like(key, args).test(text), expected, `${key} ${JSON.stringify(args)}: ${text}`);
  }
  assert.throws(() => words.like('value'), /value is like anything/);
  assert.equal(words.whole('side').test('and to the left, rising'), false);
  assert.equal(words.whole('side').test(' to the left, rising\n'), true);
});
