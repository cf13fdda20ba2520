// A python that has a module: the one that PYTHON names, or else python3, or else an environment of its own under target/, made when
// it is missing.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export function pythonWith(module, requirement) {
  if (process.env.PYTHON) return process.env.PYTHON;
  const folder = fileURLToPath(new URL('../../target/bench-python', import.meta.url));
  const own = join(folder, 'bin', 'python3');
  const has = (python) => spawnSync(python, ['-c', `import ${module}`]).status === 0;
  if (has('python3')) return 'python3';
  if (has(own)) return own;
  console.log(`${module} is missing: it is set up under target/bench-python`);
  const steps = [[own, '-m', 'pip', 'install', '--quiet', '--disable-pip-version-check', requirement]];
  if (!existsSync(own)) steps.unshift(['python3', '-m', 'venv', folder]);
  for (const [program, ...words] of steps) {
    const { status, error, stderr } = spawnSync(program, words, { encoding: 'utf8' });
    if (status !== 0) {
      console.log(`${program} ${words.join(' ')} failed: ${(error?.message ?? stderr).trim().split('\n').at(-1)}`);
      return null;
    }
  }
  return own;
}
