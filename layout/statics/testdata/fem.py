"""Finite-element solution of beams, independent of the Go code: Euler-Bernoulli
elements with cubic shape functions, two unknowns a node, and loads lumped
consistently, so that the nodes' values are exact but for rounding. Rounding is
held down by assembling in extended precision and refining the solution.

Standard input: JSON, a list of beams {Length, EI, Supports, Loads: [{From, To,
Total}], At}. Standard output: a list of {Reactions, Deflections, Moments} at At.
"""

import json
import sys

import numpy as np

Wide = np.longdouble
if np.finfo(Wide).eps > 1e-18:
    sys.exit("numpy's longdouble is no wider than a double here")


def solve(beam):
    length = Wide(beam["Length"])
    scale = lambda x: Wide(x) / length
    loads = [(l["From"], l["To"], Wide(l["Total"])) for l in beam["Loads"]]
    raw = {0.0, beam["Length"], *beam["Supports"], *beam["At"]}
    for start, end, _ in loads:
        raw |= {start, end}
    raw = sorted(raw)
    node = {x: i for i, x in enumerate(raw)}
    n = len(raw)

    stiffness = np.zeros((2 * n, 2 * n), Wide)
    force = np.zeros(2 * n, Wide)
    elements = []
    for i in range(n - 1):
        h = scale(raw[i + 1]) - scale(raw[i])
        k = np.array([[12, 6 * h, -12, 6 * h],
                      [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                      [-12, -6 * h, 12, -6 * h],
                      [6 * h, 2 * h * h, -6 * h, 4 * h * h]], Wide) / h**3
        f = np.zeros(4, Wide)
        for start, end, total in loads:
            if start < end and start <= raw[i] and raw[i + 1] <= end:
                q = total / (scale(end) - scale(start))
                f += q * np.array([h / 2, h * h / 12, h / 2, -h * h / 12], Wide)
        dof = slice(2 * i, 2 * i + 4)
        stiffness[dof, dof] += k
        force[dof] += f
        elements.append((k, f))
    for start, end, total in loads:
        if start == end:
            force[2 * node[start]] += total

    held = [2 * node[s] for s in beam["Supports"]]
    free = [d for d in range(2 * n) if d not in held]
    k = stiffness[np.ix_(free, free)]
    grade = 1 / np.sqrt(np.diag(k))
    k = grade[:, None] * k * grade
    inverse = np.linalg.inv(k.astype(float))
    right = grade * force[free]
    u = np.zeros(len(free), Wide)
    for _ in range(20):
        step = inverse @ (right - k @ u).astype(float)
        u += step
        if np.max(np.abs(step)) <= 1e-19 * np.max(np.abs(u)):
            break
    full = np.zeros(2 * n, Wide)
    full[free] = grade * u

    pull = force - stiffness @ full
    ei = Wide(beam["EI"])
    moments = []
    for x in beam["At"]:
        i = min(node[x], n - 2)
        ends = elements[i][0] @ full[2 * i:2 * i + 4] - elements[i][1]
        moments.append(float((ends[1] if i == node[x] else -ends[3]) * length))
    return {
        "Reactions": [float(pull[d]) for d in held],
        "Deflections": [float(full[2 * node[x]] * length**3 / ei) for x in beam["At"]],
        "Moments": moments,
    }


json.dump([solve(b) for b in json.load(sys.stdin)], sys.stdout)
