# The cases of advice by HiGHS: the time of its run alone, ms, and the value. Each as a mixed-integer program in the plain way: a switch for
# each way of a tree, with bare and doubled wire beside it; a switch for each step from one upright to the next.
import json
import sys
import time

import highspy
import numpy as np

INF = highspy.kHighsInf


def solved(columns, rows):
    """columns: (cost, lower, upper, whole); rows: (lower, upper, {column: factor})."""
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(columns), len(rows)
    lp.col_cost_ = np.array([c[0] for c in columns], dtype=float)
    lp.col_lower_ = np.array([c[1] for c in columns], dtype=float)
    lp.col_upper_ = np.array([c[2] for c in columns], dtype=float)
    kinds = highspy.HighsVarType
    lp.integrality_ = [kinds.kInteger if c[3] else kinds.kContinuous for c in columns]
    lp.row_lower_ = np.array([r[0] for r in rows], dtype=float)
    lp.row_upper_ = np.array([r[1] for r in rows], dtype=float)
    start, index, value = [0], [], []
    for _, _, terms in rows:
        index += terms.keys()
        value += terms.values()
        start.append(len(index))
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(start, dtype=np.int32)
    lp.a_matrix_.index_ = np.array(index, dtype=np.int32)
    lp.a_matrix_.value_ = np.array(value, dtype=float)
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.passModel(lp)
    began = time.perf_counter()
    h.run()
    return (time.perf_counter() - began) * 1e3, h.getInfo().objective_function_value


def leaders(case):
    p = case["parameters"]
    gap, doubled = p["weight_gap_per_m"], p["weight_overlap_per_m"]
    columns, rows, reaches = [], [], []
    for tree in case["trees"]:
        lengths = tree["leader_lengths_m"]
        one, left, right = {}, {}, {}
        for side in range(2 ** len(lengths)):
            for extended in range(2 ** len(lengths)):
                long = [l + p["extend_m"] * (extended >> i & 1) for i, l in enumerate(lengths)]
                sides = [sorted((l for i, l in enumerate(long) if side >> i & 1 == s), reverse=True) for s in (1, 0)]
                cost = p["cost_extend"] * extended.bit_count() + doubled * sum(sum(s[1:]) for s in sides)
                at = len(columns)
                columns.append((cost, 0, 1, True))
                one[at] = 1.0
                left[at] = tree["x_m"] - (sides[0][:1] or [0.0])[0]
                right[at] = tree["x_m"] + (sides[1][:1] or [0.0])[0]
        rows.append((1, 1, one))
        reaches.append((left, right))
    first, last = ({}, case["row_start_m"]), ({}, case["row_end_m"])
    borders = [first] + [(r, 0.0) for _, r in reaches]
    begins = [(l, 0.0) for l, _ in reaches] + [last]
    for (end, end_at), (begin, begin_at) in zip(borders, begins):
        bare, twice = len(columns), len(columns) + 1
        columns += [(gap, 0, INF, False), (doubled, 0, INF, False)]
        terms = dict(begin)
        for at, value in end.items():
            terms[at] = terms.get(at, 0.0) - value
        terms[bare], terms[twice] = -1.0, 1.0
        rows.append((end_at - begin_at, end_at - begin_at, terms))
    return solved(columns, rows)


def uprights(case):
    p, all_ = case["parameters"], case["candidates"]
    x = [c["x_m"] for c in all_]
    n, hair = len(x), 1e-9
    drop = [0.0 if c["existing_diameter_mm"] is None else 0.3 + 0.02 * c["existing_diameter_mm"] for c in all_]
    own = [p["cost_add"] if c["existing_diameter_mm"] is None else -d for c, d in zip(all_, drop)]
    columns, flow = [], [{} for _ in range(n + 2)]

    def step(a, b, cost):
        flow[a][len(columns)] = flow[a].get(len(columns), 0.0) - 1.0
        flow[b][len(columns)] = 1.0
        columns.append((cost, 0, 1, True))

    for i in range(n):
        for at, bare in ((n, x[i]), (n + 1, case["cordon_length_m"] - x[i])):
            if bare <= p["long_gap_limit_m"] + hair:
                cost = 0.0 if bare <= p["end_max_m"] + hair else p["cost_long_gap"]
                step(*((at, i, cost + own[i]) if at == n else (i, at, cost)))
        for j in range(i + 1, n):
            d = x[j] - x[i]
            if d > p["long_gap_limit_m"] + hair:
                break
            if d >= p["min_spacing_m"] - hair:
                cost = p["weight_spacing"] * ((d - p["target_spacing_m"]) / p["target_spacing_m"]) ** 2
                cost += p["cost_long_gap"] if d > p["max_spacing_m"] + hair else 0.0
                step(i, j, cost + own[j])
    rows = [(0, 0, f) for f in flow[:n]] + [(-1, -1, flow[n]), (1, 1, flow[n + 1])]
    ms, value = solved(columns, rows)
    return ms, value + sum(drop)


with open(sys.argv[1]) as file:
    case = json.load(file)
print(*(leaders if case["schema"].startswith("advice-leaders") else uprights)(case))
