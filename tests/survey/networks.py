"""Published survey networks for the least-squares core, and the little geometry they need."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot

from undertile.survey.leastsquares import Adjustment, Row, adjust, adjust_curved

Point = tuple[float, float]
Distance = tuple[str, str, float]


def trilateration(
    fixed: Mapping[str, Point],
    start: Mapping[str, Point],
    distances: Sequence[Distance],
    sigma: float,
) -> tuple[dict[str, Point], Adjustment]:
    """Points from distances, by the product's own Gauss-Newton steps.

    Unknowns are shifts from ``start``. Without a fixed point the datum is the shortest shift (minimum
    norm): three rows G'd = 0 that any solution can meet, so that they add nothing to the residuals.
    """
    names = list(start)
    number = {name: 2 * i for i, name in enumerate(names)}

    def at(name: str, shift: Sequence[float]) -> Point:
        if name in fixed:
            return fixed[name]
        i = number[name]
        return start[name][0] + shift[i], start[name][1] + shift[i + 1]

    free = not fixed
    middle = [sum(p[k] for p in start.values()) / len(start) for k in (0, 1)]

    def model(shift: Sequence[float]) -> tuple[list[float], list[Row]]:
        computed, rows = [], []
        for one, two, _ in distances:
            a, b = at(one, shift), at(two, shift)
            length = hypot(b[0] - a[0], b[1] - a[1])
            ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
            row: Row = {}
            for name, sign in ((one, -1.0), (two, 1.0)):
                if name not in fixed:
                    row[number[name]] = sign * ux
                    row[number[name] + 1] = sign * uy
            computed.append(length)
            rows.append(row)
        if free:
            datum: list[Row] = [{}, {}, {}]
            for name in names:
                i = number[name]
                datum[0][i] = 1.0
                datum[1][i + 1] = 1.0
                datum[2][i] = -(start[name][1] - middle[1]) / 100
                datum[2][i + 1] = (start[name][0] - middle[0]) / 100
            rows += datum
            computed += [sum(w * shift[i] for i, w in row.items()) for row in datum]
        return computed, rows

    observed = [length for _, _, length in distances] + [0.0] * (3 if free else 0)
    sigmas = [sigma] * len(distances) + [1.0] * (3 if free else 0)
    answer = adjust_curved(model, observed, sigmas, [0.0] * (2 * len(names)), settled=1e-7)
    return {name: at(name, answer.unknowns) for name in names}, answer


def levelling(
    fixed: Mapping[str, float], differences: Sequence[tuple[str, str, float, float]]
) -> tuple[dict[str, float], Adjustment]:
    """Heights from height differences (from, to, difference, sigma)."""
    names = sorted({n for a, b, _, _ in differences for n in (a, b)} - set(fixed))
    number = {name: i for i, name in enumerate(names)}
    rows: list[Row] = []
    values = []
    for a, b, difference, _ in differences:
        row: Row = {}
        value = difference
        for name, sign in ((a, -1.0), (b, 1.0)):
            if name in fixed:
                value -= sign * fixed[name]
            else:
                row[number[name]] = sign
        rows.append(row)
        values.append(value)
    answer = adjust(rows, values, [s for *_, s in differences], len(names))
    return dict(zip(names, answer.unknowns, strict=True)), answer


# published: Hoepke Ex. 35.5, out of Krumm, Geodetic Network Adjustment Examples, rev. 3.5 (2020)
HOEPKE_START: dict[str, Point] = {
    "20": (3579041.416, 5707194.412),
    "75": (3575403.277, 5707682.612),
    "86": (3575322.061, 5708700.952),
    "87": (3576581.778, 5709938.106),
    "1006": (3578284.289, 5708758.641),
    "1011": (3577052.332, 5708103.204),
    "1059": (3576852.894, 5706633.642),
    "1087": (3576213.699, 5709199.889),
}
HOEPKE_ADJUSTED: dict[str, Point] = {
    "20": (3579041.4042, 5707194.4039),
    "75": (3575403.2853, 5707682.6565),
    "86": (3575322.0203, 5708700.9554),
    "87": (3576581.7857, 5709938.0995),
    "1006": (3578284.2920, 5708758.6275),
    "1011": (3577052.3287, 5708103.2070),
    "1059": (3576852.9606, 5706633.5764),
    "1087": (3576213.6691, 5709199.9319),
}
HOEPKE: tuple[Distance, ...] = (
    ("86", "1006", 2962.832),
    ("86", "87", 1765.657),
    ("86", "1087", 1021.768),
    ("86", "75", 1021.536),
    ("86", "1011", 1830.646),
    ("86", "20", 4012.921),
    ("86", "1059", 2572.516),
    ("1087", "87", 824.863),
    ("1087", "20", 3466.722),
    ("1087", "1059", 2644.789),
    ("1087", "75", 1720.130),
    ("1087", "1006", 2117.134),
    ("1087", "1011", 1380.633),
    ("1006", "75", 3075.373),
    ("1006", "20", 1737.824),
    ("1006", "1059", 2562.134),
    ("1006", "1011", 1395.459),
    ("1006", "87", 2071.154),
    ("1011", "87", 1894.263),
    ("1011", "75", 1701.824),
    ("1011", "1059", 1483.088),
    ("1011", "20", 2186.853),
    ("1059", "20", 2259.167),
    ("1059", "75", 1789.449),
    ("1059", "87", 3315.630),
    ("20", "87", 3684.782),
    ("20", "75", 3670.735),
)

# published: NIST StRD Norris, (y, x)
NORRIS = (
    (0.1, 0.2), (338.8, 337.4), (118.1, 118.2), (888.0, 884.6), (9.2, 10.1), (228.1, 226.5),
    (668.5, 666.3), (998.5, 996.3), (449.1, 448.6), (778.9, 777.0), (559.2, 558.2), (0.3, 0.4),
    (0.1, 0.6), (778.1, 775.5), (668.8, 666.9), (339.3, 338.0), (448.9, 447.5), (10.8, 11.6),
    (557.7, 556.0), (228.3, 228.1), (998.0, 995.8), (888.8, 887.6), (119.6, 120.2), (0.3, 0.3),
    (0.6, 0.3), (557.6, 556.8), (339.3, 339.1), (888.0, 887.2), (998.5, 999.0), (778.9, 779.0),
    (10.2, 11.1), (117.6, 118.3), (228.9, 229.2), (668.4, 669.1), (449.2, 448.9), (0.2, 0.5),
)  # fmt: skip
