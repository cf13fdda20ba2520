"""Reference answers for solid blocks with gaps and for deep or layered walls, by plain Monte-Carlo rays with exact ray-box
clipping in numpy: nothing in common with the program's grid. Needs numpy alone; writes ../data/light-blocks/*.json, which
are checked in. Standard errors are about 3e-4 (direct 5e-4)."""

import json
import pathlib

import numpy as np

RNG = np.random.default_rng(20260301)
RAYS = 4_000_000
SUNS = [(30.0, 100.0), (55.0, 160.0), (70.0, 75.0), (40.0, 210.0), (20.0, 180.0)]  # zenith, azimuth from the row


def through(wall, s, x, y):
    """Share let through along rays from the ground at x, y toward s (three arrays)."""
    period, spacing, half = wall["period_x_m"], wall["row_spacing_m"], wall["thickness_m"] / 2
    slant_y = np.maximum(np.abs(s[1]) / s[2], 1e-9)
    slant_x = s[0] / s[2]
    top = max(b["z1_m"] for b in wall["boxes"])
    depth = np.zeros_like(x)
    for k in range(0, int(np.ceil((slant_y * top).max() / spacing)) + 2):
        near, far = (k * spacing - half - y) / slant_y, (k * spacing + half - y) / slant_y
        for b in wall["boxes"]:
            low, high = np.maximum(near, b["z0_m"]), np.minimum(far, b["z1_m"])
            hit = np.nonzero(high > low)[0]
            if hit.size == 0:
                continue
            low, high = low[hit], high[hit]
            a, c = x[hit] + slant_x[hit] * low, x[hit] + slant_x[hit] * high
            p, q = np.minimum(a, c), np.maximum(a, c)
            x0, x1 = b["x0_m"], b["x1_m"]

            def filled(v):
                turns = np.floor(v / period)
                return turns * (x1 - x0) + np.clip(v - turns * period - x0, 0, x1 - x0)

            wide = q - p > 1e-9
            at = p % period
            share = np.where(wide, (filled(q) - filled(p)) / np.where(wide, q - p, 1), (at >= x0) & (at < x1))
            density = 1e9 if wall["opaque"] else b["leaf_area_density_m2_per_m3"]
            depth[hit] += share * (high - low) * density * wall["g_function"] / s[2][hit]
    return np.exp(-depth)


def caught(wall, s, weight):
    total, of = 0.0, 0.0
    for part in np.array_split(np.arange(s[0].size), max(1, s[0].size // 250_000)):
        x = RNG.random(part.size) * wall["period_x_m"]
        y = RNG.random(part.size) * wall["row_spacing_m"]
        total += ((1 - through(wall, [c[part] for c in s], x, y)) * weight[part]).sum()
        of += weight[part].sum()
    return round(float(total / of), 5)


def season(site, first, last):
    """Sun directions and beam on level ground; Spencer's declination, 0.7 to the power of 1/sin(height)."""
    day = RNG.integers(first, last + 1, RAYS).astype(float)
    g = 2 * np.pi * (day - 1) / 365
    dec = (
        0.006918 - 0.399912 * np.cos(g) + 0.070257 * np.sin(g) - 0.006758 * np.cos(2 * g)
        + 0.000907 * np.sin(2 * g) - 0.002697 * np.cos(3 * g) + 0.00148 * np.sin(3 * g)
    )
    lat, row = np.radians(site["latitude_deg"]), np.radians(site["row_azimuth_deg"])
    half = np.arccos(np.clip(-np.tan(lat) * np.tan(dec), -1, 1))
    hour = (2 * RNG.random(RAYS) - 1) * half
    up = np.sin(lat) * np.sin(dec) + np.cos(lat) * np.cos(dec) * np.cos(hour)
    east = -np.cos(dec) * np.sin(hour)
    north = np.cos(lat) * np.sin(dec) - np.sin(lat) * np.cos(dec) * np.cos(hour)
    s = [north * np.cos(row) + east * np.sin(row), north * np.sin(row) - east * np.cos(row), up]
    beam = (1 + 0.033 * np.cos(2 * np.pi * day / 365)) * 0.7 ** (1 / np.maximum(up, 1e-3)) * up * half
    keep = beam > 1e-5
    return [c[keep] for c in s], beam[keep]


def solve(name, wall, site):
    direct_ask, direct = [], []
    for zenith, azimuth in SUNS:
        z, a = np.radians(zenith), np.radians(azimuth)
        s = [np.sin(z) * np.cos(a), -np.sin(z) * np.sin(a), np.cos(z)]
        direct_ask.append(dict(zip(["sun_vec_x_along_row", "sun_vec_y_across_row", "sun_vec_z_up"], map(float, s))))
        many = [np.full(RAYS // 4, c) for c in s]
        direct.append({"interception": caught(wall, many, np.ones(RAYS // 4))})
    u, turn = RNG.random(RAYS), RNG.random(RAYS) * 2 * np.pi
    up = np.maximum(np.sqrt(u), 5e-3)
    flat = np.sqrt(1 - up**2)
    sky = [flat * np.cos(turn), flat * np.sin(turn), up]
    case = {
        "schema": "wall-light-case/1",
        "id": name,
        "documentation": {"made_by": "tests/reference/light_blocks.py"},
        "geometry": wall,
        "site": site,
        "ask": {"direct": direct_ask, "season": {"doy_first": 105, "doy_last": 288, "southern_shift_days": 0}},
        "results": {
            "direct": direct,
            "uniform_sky": {"interception": caught(wall, sky, np.ones(RAYS))},
            "standard_overcast_sky": {"interception": caught(wall, sky, 1 + 2 * up)},
            "season": {"beam_interception": caught(wall, *season(site, 105, 288))},
        },
    }
    folder = pathlib.Path(__file__).parent.parent / "data" / "light-blocks"
    folder.mkdir(exist_ok=True)
    (folder / f"{name}.json").write_text(json.dumps(case, indent=1) + "\n")


def wall(opaque, thickness, period, spacing, *boxes):
    keys = ["x0_m", "x1_m", "z0_m", "z1_m", "leaf_area_density_m2_per_m3"]
    return {
        "period_x_m": period, "thickness_m": thickness, "g_function": 0.5, "opaque": opaque, "row_spacing_m": spacing,
        "boxes": [dict(zip(keys, b)) for b in boxes],
    }


solve("solid_gap_ns", wall(True, 0.5, 2.4, 3.0, (0, 1.7, 0.4, 2.4, 1)), {"latitude_deg": 45, "row_azimuth_deg": 0})
solve(
    "solid_blocks_ew",
    wall(True, 0.4, 3.37, 2.8, (0.11, 1.08, 0, 2.43, 1), (1.51, 2.62, 0.3, 1.77, 1)),
    {"latitude_deg": 38, "row_azimuth_deg": 90},
)
solve("deep_gap_ns", wall(False, 1.8, 2.0, 3.5, (0, 1.37, 0.5, 3.1, 2.5)), {"latitude_deg": 48, "row_azimuth_deg": 10})
solve(
    "layers_ns",
    wall(False, 0.3, 1.0, 3.0, (0, 1, 0.45, 0.97, 12), (0, 1, 0.97, 2.03, 1), (0, 1, 2.03, 3.21, 7)),
    {"latitude_deg": 45, "row_azimuth_deg": 0},
)
