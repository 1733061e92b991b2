"""The whole room adjusted at once: studs by themselves first, then what checks them, and the frame.

Every stud line is adjusted alone (``studlines``); the checks then see only its answer and covariance. With k
checks the room is one k by k system whatever the number of readings, and gives exactly what one large
adjustment of all readings would (tests compare the two).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from undertile.survey.checks import FrameRow, RoomCheck, sighted
from undertile.survey.faces import LineKey
from undertile.survey.leastsquares import (
    Matrix,
    Row,
    Vector,
    backward,
    cholesky,
    dot,
    forward,
    inverse,
)
from undertile.survey.roomfit import Observation, RoomFit
from undertile.survey.studlines import StudFit

_STEPS = 4  # of the frame: a diagonal bends little over what the first guess is out
_SANE_TURN = 1 / 20
_SANE_OPENING = 1.0
"""Further than this from square, or from the middling width, is a misread diagonal or width and no room: the
diagonals' equations stay where the room is sane, or one gross slip would bend them all. [in/in], [in]"""
_SCALE = (1.0, 1 / 36, 1 / 36)  # inches for the turns too, so that one rank limit serves
_RANK = 1e-6


def adjust_room(fits: Mapping[LineKey, StudFit], checks: Sequence[RoomCheck]) -> RoomFit:
    """Adjust the room.

    Parameters
    ----------
    fits : mapping of (stud, edge) to StudFit
    checks : sequence of RoomCheck

    Returns
    -------
    RoomFit

    Notes
    -----
    A stud's face at one instant is its own estimate x with covariance Q; check k says g_k x + F_k f. Its miss
    v_k = value - g_k x has covariance S = G Q G' + diag(sigma^2); f follows by least squares in S.
    """
    checks = list(checks)
    frame = start = _first_guess(checks)
    unknowns = {key: fit.fit.unknowns for key, fit in fits.items() if fit.fit is not None}
    curved = any(check.sight is not None for check in checks)
    white, about = None, frame
    for _ in range(_STEPS if curved else 1):
        misses = []
        for check in checks:
            if check.sight is None:
                misses.append(check.value - _stands(check.faces, unknowns))
            else:
                length, check.frame, check.faces = sighted(check.sight, frame, unknowns)
                misses.append(check.value - length + dot(check.frame, frame))
        spreads = [_spread(check, fits) for check in checks]
        white, about = _whitened(checks, spreads, misses), frame
        if not _sane(white.frame, start):
            break
        frame = white.frame
    if white is None or not checks:
        solution = _Solution((0.0, 0.0, 0.0), (False, False, False), _zeros(3), [], [], 0.0, 0)
        spreads = []
    else:
        solution = _solved(white)
    return _put_together(fits, checks, spreads, solution, about)


@dataclass
class _Solution:
    frame: FrameRow
    known: tuple[bool, bool, bool]
    cofactors: Matrix
    weights: Matrix
    pull: Vector
    omega: float
    rank: int


@dataclass
class _Whitened:
    """One step of the frame: the checks without what they share, and the frame that fits them best."""

    lower: Matrix
    columns: Matrix
    basis: Matrix
    misses: Vector
    growth_known: bool
    frame: FrameRow
    cofactors: Matrix


def _zeros(size: int) -> Matrix:
    return [[0.0] * size for _ in range(size)]


def _stands(faces: Mapping[LineKey, Row], at: Mapping[LineKey, Sequence[float]]) -> float:
    return sum(w * at[key][i] for key, row in faces.items() for i, w in row.items())


def _first_guess(checks: Iterable[RoomCheck]) -> FrameRow:
    """A middling opening to start from: only the slope of a diagonal leans on it."""
    across = sorted(check.value for check in checks if check.frame[0] == 1.0)
    return (across[len(across) // 2] if across else 60.0), 0.0, 0.0


def _sane(frame: FrameRow, start: FrameRow) -> bool:
    opening, growth, turn = frame
    turns = max(abs(growth), abs(turn), abs(growth + turn))
    return turns <= _SANE_TURN and abs(opening - start[0]) <= _SANE_OPENING


def _spread(check: RoomCheck, fits: Mapping[LineKey, StudFit]) -> dict[LineKey, Vector]:
    """Q g of each line a check touches."""
    out: dict[LineKey, Vector] = {}
    for key, row in check.faces.items():
        fit = fits[key].fit
        if fit is None:
            continue
        total = [0.0] * len(fit.unknowns)
        for i, w in row.items():
            total = [t + w * q for t, q in zip(total, fit.cofactors[i], strict=True)]
        out[key] = total
    return out


def _whitened(
    checks: Sequence[RoomCheck], spreads: Sequence[Mapping[LineKey, Vector]], misses: Sequence[float]
) -> _Whitened:
    size = len(checks)
    covariance = _zeros(size)
    for k, spread in enumerate(spreads):
        for m in range(k + 1):
            faces = checks[m].faces
            total = 0.0
            for key, line in spread.items():
                row = faces.get(key)
                if row is not None:
                    for i, w in row.items():
                        total += w * line[i]
            covariance[k][m] = covariance[m][k] = total
        covariance[k][k] += checks[k].sigma ** 2
    lower = cholesky(covariance)
    columns = [forward(lower, [check.frame[p] * _SCALE[p] for check in checks]) for p in range(3)]
    white = forward(lower, misses)
    growth_known = _determined(columns, 1)
    if not growth_known:
        columns[1] = [0.0] * size  # nothing says otherwise: the opening keeps its width (result.Frame)
    basis = _orthonormal(columns)
    values, cofactors = _least(columns, basis, white)
    frame = (values[0] * _SCALE[0], values[1] * _SCALE[1], values[2] * _SCALE[2])
    return _Whitened(lower, columns, basis, white, growth_known, frame, cofactors)


def _solved(white: _Whitened) -> _Solution:
    """What is asked of the last step alone: what is determined, and how the checks answer to each other."""
    lower, columns, basis, cofactors = white.lower, white.columns, white.basis, white.cofactors
    known = (_determined(columns, 0), white.growth_known, _determined(columns, 2))
    scaled = [[cofactors[i][j] * _SCALE[i] * _SCALE[j] for j in range(3)] for i in range(3)]
    left = list(white.misses)
    for direction in basis:
        share = dot(direction, left)
        left = [a - share * b for a, b in zip(left, direction, strict=True)]
    weights = inverse(lower)
    for direction in basis:
        back = backward(lower, direction)
        for i, a in enumerate(back):
            line = weights[i]
            for j, b in enumerate(back):
                line[j] -= a * b
    return _Solution(white.frame, known, scaled, weights, backward(lower, left), dot(left, left), len(basis))


def _orthonormal(columns: Sequence[Vector]) -> list[Vector]:
    """Directions the frame can explain, by Gram-Schmidt twice over; dependent columns drop out."""
    basis: list[Vector] = []
    for column in columns:
        size = sqrt(dot(column, column))
        rest = list(column)
        for _ in range(2):
            for direction in basis:
                share = dot(direction, rest)
                rest = [a - share * b for a, b in zip(rest, direction, strict=True)]
        length = sqrt(dot(rest, rest))
        if size > 0 and length > _RANK * size:
            basis.append([a / length for a in rest])
    return basis


def _determined(columns: Sequence[Vector], p: int) -> bool:
    """Whether column p says something the others do not."""
    others = _orthonormal([column for q, column in enumerate(columns) if q != p])
    return len(_orthonormal([*others, columns[p]])) > len(others)


def _least(
    columns: Sequence[Vector], basis: Sequence[Vector], white: Sequence[float]
) -> tuple[Vector, Matrix]:
    """Shortest least-squares answer: R+ (Q' white) and R+ R+', with R = Q' columns."""
    if not basis:
        return [0.0] * 3, _zeros(3)
    r = [[dot(direction, column) for column in columns] for direction in basis]
    middle = inverse(cholesky([[dot(a, b) for b in r] for a in r]))
    spread = [[sum(r[a][p] * middle[a][b] for a in range(len(r))) for b in range(len(r))] for p in range(3)]
    right = [dot(direction, white) for direction in basis]
    return [dot(line, right) for line in spread], [[dot(a, b) for b in spread] for a in spread]


def _put_together(
    fits: Mapping[LineKey, StudFit],
    checks: list[RoomCheck],
    spreads: list[dict[LineKey, Vector]],
    solution: _Solution,
    about: FrameRow,
) -> RoomFit:
    observations: list[Observation] = []
    gradient: Vector = []
    diagonal: Vector = []
    reach: list[dict[int, float]] = []
    omega, freedom = solution.omega, len(checks) - solution.rank
    pull, weights = solution.pull, solution.weights
    touching: dict[LineKey, list[int]] = {}
    for k, check in enumerate(checks):
        for key in check.faces:
            touching.setdefault(key, []).append(k)
    for key, fit in fits.items():
        if fit.fit is None or fit.layout is None:
            continue
        own = fit.fit
        omega += own.omega
        freedom += own.freedom
        for index, sigma in enumerate(own.sigmas):
            observations.append(_named(key, fit, index, sigma))
            hits = {}
            for k in touching.get(key, ()):
                row = checks[k].faces[key]
                hits[k] = -sum([w * fit.layout.gain[i][index] for i, w in row.items()])
            reach.append(hits)
            gradient.append(
                -own.residuals[index] / (sigma * sigma) + sum([a * pull[k] for k, a in hits.items()])
            )
            diagonal.append(
                own.snoop[index][index]
                + sum([a * weights[k][m] * b for k, a in hits.items() for m, b in hits.items()])
            )
    for k, check in enumerate(checks):
        observations.append(Observation(check.place, check.kind, None, k, check.sigma, check.slope))
        reach.append({k: 1.0})
        gradient.append(pull[k])
        diagonal.append(weights[k][k])
    return RoomFit(
        fits,
        checks,
        observations,
        gradient,
        diagonal,
        omega,
        freedom,
        solution.frame,
        about,
        solution.known,
        solution.cofactors,
        weights,
        pull,
        reach,
        spreads,
    )


def _named(key: LineKey, fit: StudFit, index: int, sigma: float) -> Observation:
    stud = f"{key[0]} {key[1]}" if key[1] else key[0]
    past = index - len(fit.read)
    if past < 0:
        return Observation(f"{stud} at {fit.labels[fit.read[index]]}", "reading", key, index, sigma, -1.0)
    if past < len(fit.bends):
        h = fit.known[fit.bends[past].middle]
        return Observation(f"{stud} at {fit.labels[h]}", "bend", key, index, sigma, 0.0)
    return Observation(f"stud {stud}", "crown", key, index, sigma, 0.0)
