"""Places that are tried at a time: which they are, counted one by one."""

from itertools import product

from kit.geometry.packing.cells import STRIDE
from kit.geometry.packing.separating import _met


def test_every_second_cell_is_found_where_two_parts_may_meet() -> None:
    for first, last, end, begin in product(range(-5, 12), range(-4, 16), range(12), range(STRIDE)):
        tried = range(begin, end, STRIDE)
        wanted = [cell for cell in tried if first <= cell < last]
        met, strides, more = _met(first, last, end, begin)
        assert [*tried[met]] == wanted, (first, last, end, begin)
        if wanted:
            assert first + strides * STRIDE + more == wanted[0]
            assert 0 <= more < STRIDE
