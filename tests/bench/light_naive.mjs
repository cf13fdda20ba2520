// The light model written straight down in JavaScript, as an anchor for speed: per direction a sheared prefix sum, then
// every ray to the ground and to every cell by itself. Same wall, directions and rays as the program while dragging
// (12 × 10 directions; whole levels; four rays in each piece of the alley).

export const WALL = { columns: 800, levels: 25, dx: 0.05, dz: 0.1, thickness: 0.5, spacing: 3.0, g: 0.5 };

export function density() {
  const { columns, levels } = WALL;
  const a = new Float64Array(columns * levels);
  for (let l = 0; l < levels; l++) {
    for (let c = 0; c < columns; c++) {
      const upright = Math.floor(c / 4);
      let d = 0;
      if (l === 5) d = 8;
      else if (l > 5 && c % 4 !== 3 && upright % 17 !== 5) d = 3 + ((upright * 37 + l * 11) % 13) * 0.5;
      a[l * columns + c] = d;
    }
  }
  return a;
}

export function gaussLegendre(n) {
  const x = [], w = [];
  for (let i = 0; i < n; i++) {
    let t = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5)), slope = 1;
    for (let k = 0; k < 100; k++) {
      let p = 1, before = 0;
      for (let j = 0; j < n; j++) [p, before] = [((2 * j + 1) * t * p - j * before) / (j + 1), p];
      slope = (n * (t * p - before)) / (t * t - 1);
      const step = p / slope;
      t -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    x.push(t);
    w.push(2 / ((1 - t * t) * slope * slope));
  }
  return [x, w];
}

export function directions() {
  const out = [];
  for (const u of gaussLegendre(12)[0]) {
    for (const node of gaussLegendre(10)[0]) {
      const v = 0.5 * (node + 1), c = Math.sqrt(1 - u * u);
      const z = c * Math.sqrt(1 - v * v);
      out.push({ m: u / z, n: (c * v) / z, slant: 1 / z });
    }
  }
  return out;
}

// C(x0, z): leaf area met from the ground up to each level edge by the ray that starts in column j.
function sheared(a, m, from, count) {
  const { columns, levels, dx, dz } = WALL;
  const prefix = new Float64Array(count * (levels + 1));
  for (let j = 0; j < count; j++) {
    for (let l = 0; l < levels; l++) {
      let p = from + j + 0.5 + (m * l * dz) / dx, q = from + j + 0.5 + (m * (l + 1) * dz) / dx;
      if (p > q) [p, q] = [q, p];
      let mean = 0;
      const first = Math.floor(p), last = Math.floor(q);
      if (first === last) mean = first >= 0 && first < columns ? a[l * columns + first] : 0;
      else {
        for (let c = Math.max(first, 0); c <= Math.min(last, columns - 1); c++) {
          mean += a[l * columns + c] * (Math.min(q, c + 1) - Math.max(p, c));
        }
        mean /= q - p;
      }
      prefix[j * (levels + 1) + l + 1] = prefix[j * (levels + 1) + l] + mean * dz;
    }
  }
  return prefix;
}

function upTo(prefix, j, z) {
  const { levels, dz } = WALL;
  const at = Math.min(z / dz, levels), l = Math.min(Math.floor(at), levels - 1);
  const base = j * (levels + 1) + l;
  return prefix[base] + (prefix[base + 1] - prefix[base]) * (at - l);
}

// Share let through along the ray of sheared column j that arrives at y across the row and height z.
function through(prefix, j, d, y, z) {
  const { levels, dz, thickness, spacing, g } = WALL;
  const top = levels * dz, half = thickness / 2;
  let depth = 0;
  const last = Math.floor((y + d.n * (top - z) + half) / spacing);
  for (let k = Math.ceil((y - half) / spacing); k <= last; k++) {
    const low = Math.max(z + (k * spacing - half - y) / d.n, z), high = Math.min(z + (k * spacing + half - y) / d.n, top);
    if (high > low) depth += upTo(prefix, j, high) - upTo(prefix, j, low);
  }
  return Math.exp(-g * d.slant * depth);
}

/** Evaluates the given directions; returns the mean share that reaches the ground and the map of the last one. */
export function evaluate(a, dirs) {
  const { columns, levels, dx, dz, thickness, spacing } = WALL;
  const [nodes, weights] = gaussLegendre(4);
  const top = levels * dz, half = thickness / 2;
  let mean = 0, map;
  for (const d of dirs) {
    const reach = Math.ceil((Math.abs(d.m) * top) / dx) + 1;
    const from = d.m > 0 ? -reach : 0, count = columns + reach + 1;
    const prefix = sheared(a, d.m, from, count);
    const wrap = (y) => y - spacing * Math.floor(y / spacing);
    const edges = [half - d.n * top, -half - d.n * top, half, -half].map(wrap).sort((p, q) => p - q);
    edges.push(edges[0] + spacing);
    for (let c = 0; c < columns; c++) {
      let t = 0;
      for (let e = 0; e < 4; e++) {
        const length = edges[e + 1] - edges[e];
        if (length < 1e-9) continue;
        for (let i = 0; i < 4; i++) {
          const y = edges[e] + 0.5 * length * (1 + nodes[i]);
          t += ((0.5 * weights[i] * length) / spacing) * through(prefix, c - from, d, y, 0);
        }
      }
      mean += t;
    }
    map = new Float64Array(columns * levels);
    for (let l = 0; l < levels; l++) {
      const z = (l + 0.5) * dz, x = -(d.m * z) / dx;
      const shift = Math.floor(x), next = x - shift;
      for (let c = 0; c < columns; c++) {
        const j = c + shift - from;
        map[l * columns + c] = (1 - next) * through(prefix, j, d, 0, z) + next * through(prefix, j + 1, d, 0, z);
      }
    }
  }
  return { mean: mean / (dirs.length * columns), map };
}
