"""Integer programs, solved by HiGHS (through SciPy) in a process of its own.

HiGHS looks at the clock between steps of its work, and single steps may take a minute: a process
can be ended. It also writes remarks to the standard output, where answers for programs go; here
nobody sees them.

The module runs itself: ``python -m cordwright.supply.solving`` reads a program from its standard
input and writes the answer to its standard output, both as pickles that this module makes.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from scipy.sparse import csr_array

GRACE_S = 3.0
"""Time beyond the limit, for starting the process and for HiGHS to come to an end by itself."""


@dataclass(frozen=True, slots=True)
class Program:
    """Least cost of whole numbers x with ``least <= matrix @ x <= most`` and ``0 <= x <= upper``.

    Args:
        cost: (n,) of each unknown.
        matrix: (m, n).
        least: (m,).
        most: (m,).
        upper: (n,).
    """

    cost: NDArray[np.float64]
    matrix: csr_array
    least: NDArray[np.float64]
    most: NDArray[np.float64]
    upper: NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a program.

    Args:
        end: solved, shown to have no solution, or stopped when time ran out.
        x: (n,) the best solution that was found, if any.
        bound: no solution costs less; None if nothing was learnt.
    """

    end: Literal["solved", "none", "time"]
    x: NDArray[np.int64] | None = None
    bound: float | None = None


def solve(program: Program, seconds: float) -> Outcome:
    """Solves a program in about this time, at most `GRACE_S` more."""
    command = [sys.executable, "-m", __name__]
    try:
        done = subprocess.run(  # noqa: S603 - this program itself, by its own name
            command,
            input=pickle.dumps((program, seconds)),
            capture_output=True,
            timeout=seconds + GRACE_S,
            check=True,
        )
    except subprocess.TimeoutExpired:
        return Outcome("time")
    outcome = pickle.loads(done.stdout)  # noqa: S301 - written by the process started above
    if not isinstance(outcome, Outcome):
        raise TypeError(f"the solver answered with a {type(outcome).__name__}")
    return outcome


def solve_here(program: Program, seconds: float) -> Outcome:
    """Solves a program in this process; HiGHS may overrun the time by far."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    answer: Any = milp(
        program.cost,
        constraints=[LinearConstraint(program.matrix, program.least, program.most)],
        bounds=Bounds(0.0, program.upper),
        integrality=np.ones(len(program.cost), dtype=np.int64),
        options={"time_limit": max(0.1, seconds), "mip_rel_gap": 0.0},
    )
    if answer.status == 2:
        return Outcome("none")
    x = None if answer.x is None else np.rint(answer.x).astype(np.int64)
    bound = answer.mip_dual_bound
    known = bound is not None and bool(np.isfinite(bound))
    end: Literal["solved", "time"] = "solved" if answer.status == 0 else "time"
    return Outcome(end, x, float(bound) if known else None)


def _serve() -> None:
    """Answers one program, with HiGHS's own remarks kept out of the answer."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    program, seconds = pickle.load(sys.stdin.buffer)  # noqa: S301 - written by `solve`
    # Under its own name, for whoever reads the answer: here this module is called __main__.
    from cordwright.supply import solving

    with answers:
        pickle.dump(solving.solve_here(program, seconds), answers)


if __name__ == "__main__":
    _serve()
