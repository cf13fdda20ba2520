// `cargo xtask bench advice`: the exact solvers on rows of 1,000 trees, beside the bounds that they are to keep, and on the cases in
// tests/data/advice beside HiGHS, in one run on this machine. Only the solving is timed, of both; each time is the best of several.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { pythonWith } from './python.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const CASES = ['leaders_10trees', 'leaders_100trees', 'uprights_1trees', 'uprights_10trees', 'uprights_100trees'].map((name) => `${name}.json`);
const AIM = 100;

function heard(program, ...args) {
  const { status, stdout, error } = spawnSync(program, args, { cwd: here('../..'), encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  if (error || status !== 0) throw new Error(`${program} ${args.join(' ')}: ${error ?? `ended with ${status}`}`);
  return stdout.trim().split('\n');
}

const say = (measure, unit, ours, anchor = null) => console.log(JSON.stringify({ measure, unit, ours, anchor }));

const ours = heard(process.env.CARGO ?? 'cargo', 'run', '-q', '--release', '-p', 'cordonry-tests', '--bin', 'bench-advice', '--', ...CASES)
  .map((line) => JSON.parse(line));
for (const { measure, unit, ours: ms, anchor } of ours.filter((line) => line.measure)) say(measure, unit, ms, anchor);

const python = pythonWith('highspy', 'highspy>=1.16,<2');
if (python === null) console.log('HiGHS is left out (PYTHON may name a python that has highspy)');
for (const { case: name, ms, value } of ours.filter((line) => line.case)) {
  if (python === null) {
    say(`${name}`, 'ms', ms);
    continue;
  }
  const runs = Array.from({ length: 3 }, () => heard(python, here('advice_highs.py'), here(`../data/advice/${name}`)).at(-1).split(' ').map(Number));
  const theirs = Math.min(...runs.map(([time]) => time));
  const apart = Math.abs(runs[0][1] - value);
  if (apart > 1e-6) throw new Error(`${name}: HiGHS finds ${runs[0][1]}, the program ${value}`);
  say(`${name}; anchor HiGHS`, 'ms', ms, theirs);
  if (name.includes('100')) say(`${name}: times as fast as HiGHS; anchor the aim`, '', theirs / ms, AIM);
}
