// Times the WebAssembly build beside the naive JavaScript, in one run, and prints a table.
//   node tests/bench/light.mjs FULL.wasm EDIT.wasm
// where the two files are `wasm-light-full` and `wasm-light-edit`, built for wasm32-unknown-unknown with the `web` profile.
import { readFileSync } from 'node:fs';
import { WALL, density, directions, evaluate } from './light_naive.mjs';

const best = (runs, work) => {
  let least = Infinity;
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
};

const [full, edit] = process.argv.slice(2).map((path) => {
  const instance = new WebAssembly.Instance(new WebAssembly.Module(readFileSync(path)), {});
  return () => instance.exports.main(0, 0);
});
const share = full() / 200;
const fullMs = best(20, full);
const editMs = Math.max(0, best(20, edit) - fullMs) / 20;

const wall = density(), dirs = directions();
const mean = evaluate(wall, dirs).mean;
const naiveMs = best(3, () => evaluate(wall, dirs));
if (Math.abs(mean - share) > 0.01) throw new Error(`naive lets ${mean} through, the program ${share}`);

const cells = dirs.length * WALL.columns * WALL.levels;
const row = (name, ms) => console.log(`${name.padEnd(36)}${ms.toFixed(2).padStart(10)}${((ms * 1e6) / cells).toFixed(2).padStart(14)}`);
console.log(`${''.padEnd(36)}${'ms'.padStart(10)}${'ns/cell·dir'.padStart(14)}`);
row('WebAssembly, full with map', fullMs);
row('WebAssembly, one upright edited', editMs);
row('naive JavaScript, full with map', naiveMs);
console.log(`naive JavaScript takes ${(naiveMs / fullMs).toFixed(1)} times as long`);
