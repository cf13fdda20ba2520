// `cargo xtask bench light`: the light on a row of 40 m by 2.5 m in cells of 5 by 10 cm, native and in WebAssembly, beside the
// same model written straight down in JavaScript and in numpy, all in one run on this machine. Every time is the best of
// several.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { pythonWith } from './python.mjs';
import { WALL, density, directions, evaluate } from './light_naive.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const root = here('../..');

function heard(program, ...args) {
  const { status, stdout, error } = spawnSync(program, args, { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  if (error || status !== 0) throw new Error(`${program} ${args.join(' ')}: ${error ?? `ended with ${status}`}`);
  return stdout;
}

const best = (runs, work) => {
  let least = Infinity;
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
};

const say = (measure, unit, ours, anchor = null) => console.log(JSON.stringify({ measure, unit, ours, anchor }));

// Native.
const cargo = process.env.CARGO ?? 'cargo';
const native = heard(cargo, 'run', '-q', '--release', '-p', 'cordonry-tests', '--bin', 'bench-light', '--', '--json')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

// WebAssembly, timed from outside; the edits' time is that beyond one full evaluation.
const target = 'wasm32-unknown-unknown';
const bins = ['wasm-light-full', 'wasm-light-edit'];
heard(cargo, 'build', '-q', '--profile', 'web', '--target', target, '-p', 'cordonry-tests', ...bins.flatMap((bin) => ['--bin', bin]));
const folder = JSON.parse(heard(cargo, 'metadata', '--format-version', '1', '--no-deps')).target_directory;
const [full, edit] = bins.map((bin) => {
  const module = new WebAssembly.Module(readFileSync(`${folder}/${target}/web/${bin}.wasm`));
  const instance = new WebAssembly.Instance(module, {});
  return () => instance.exports.main(0, 0);
});
const share = full() / 200;
const fullMs = best(20, full);
const editMs = Math.max(0, best(20, edit) - fullMs) / 20;

// JavaScript.
const wall = density(), dirs = directions();
const check = (name, mean) => {
  if (Math.abs(mean - share) > 0.01) throw new Error(`${name} lets ${mean} through, the program ${share}`);
};
check('naive JavaScript', evaluate(wall, dirs).mean);
const naiveMs = best(3, () => evaluate(wall, dirs));

let numpyMs = null;
const python = pythonWith('numpy', 'numpy>=2,<3');
const run = python && spawnSync(python, [here('light_naive.py')], { encoding: 'utf8' });
if (run?.status === 0) {
  const [ms, mean] = run.stdout.trim().split(' ').map(Number);
  check('numpy', mean);
  numpyMs = ms;
} else {
  console.log('numpy is left out (PYTHON may name a python that has it)');
}

const cells = dirs.length * WALL.columns * WALL.levels;
say(`native: full with map, ${native[0].directions} directions; anchor numpy`, 'ms', native[0].full, numpyMs);
say('native: one upright edited', 'ms', native[0].edit);
say(`native: at rest, full with map, ${native[2].directions} directions`, 'ms', native[2].full);
say(`wasm: full with map, ${dirs.length} directions; anchor naive JavaScript`, 'ms', fullMs, naiveMs);
say('wasm: one upright edited', 'ms', editMs);
say('wasm: per cell and direction; anchor naive JavaScript', 'ns', (fullMs * 1e6) / cells, (naiveMs * 1e6) / cells);
say('wasm: times as fast as naive JavaScript; anchor the aim', '', naiveMs / fullMs, 8);
