"""Products of matrices in pieces so small that they are worked in one thread.

The libraries behind numpy share a larger product between threads. These products take microseconds, and on a machine with other
work a thread can be waited for a thousand times as long. The limits are those of OpenBLAS (interface/gemm.c, zgemv.c, zdot.c),
with room to spare; pieces only change the order of additions, if anything.
"""
from curtilage.calc.network.records import Array

GEMV, GEMM, DOT = 4000, 50_000, 8000
"""Elements of a matrix, multiplications of a product, elements of a vector, that one thread works by itself."""


def product(matrix: Array, x: Array) -> Array:
    """matrix @ x, by rows of the matrix; x is a vector or a matrix."""
    import numpy as np
    rows = max((GEMV if x.ndim == 1 else GEMM) // max(x.size, 1), 1)
    if rows >= len(matrix) > 1:
        return matrix @ x
    return np.concatenate([_piece(matrix[i : i + rows], x) for i in range(0, len(matrix), rows)])


def _piece(matrix: Array, x: Array) -> Array:
    """A single row by a matrix is the other way round to the library, and large again."""
    import numpy as np
    if len(matrix) > 1 or x.size <= GEMV:
        return matrix @ x
    return np.einsum("ij,jk->ik" if x.ndim > 1 else "ij,j->i", matrix, x)


def squares(x: Array) -> float:
    """The sum of the squares of the magnitudes."""
    import numpy as np
    flat = x.reshape(-1)
    return float(sum(np.vdot(part, part).real for part in (flat[i : i + DOT] for i in range(0, len(flat), DOT))))
