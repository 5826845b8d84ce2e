"""The one rounding rule: half up, with a fixed nudge, the same in Python and in the browser.

A half goes up, towards plus infinity, on both sides of zero: 2.5 becomes 3 and -2.5 becomes -2. So a
drawing that is moved by whole marks keeps its shape, which rounding away from zero would not give.
The nudge, a ten-millionth of a mark, takes up what binary fractions lose: 57.15 has no exact float but
is a half of a tenth all the same. Only ``* / + floor ceil`` are used, each of which IEEE 754 fixes to
the last bit, so JavaScript gives equal results (there add ``+ 0`` to turn ``-0`` into ``0``).

Values must be finite and marks above zero; values within 10⁹ marks keep the nudge meaningful.
"""

from math import ceil, floor

NUDGE = 1e-7


def marks_in(x: float, mark: float) -> int:
    """How many marks are nearest to ``x``."""
    return floor(x / mark + 0.5 + NUDGE)


def marks_up(x: float, mark: float) -> int:
    """How many marks just cover ``x``."""
    return ceil(x / mark - NUDGE)


def marks_down(x: float, mark: float) -> int:
    """How many whole marks lie within ``x``."""
    return floor(x / mark + NUDGE)


def to_mark(x: float, mark: float) -> float:
    """The mark nearest to ``x``, in the unit of both; a half goes up."""
    return mark * marks_in(x, mark)


def up(x: float, mark: float) -> float:
    """The next mark at or above ``x``."""
    return mark * marks_up(x, mark)


def down(x: float, mark: float) -> float:
    """The next mark at or below ``x``."""
    return mark * marks_down(x, mark)


def decimals(x: float, places: int) -> str:
    """``x`` with exactly that many decimals (0 to 9), no exponent, never ``-0``."""
    count = floor(x * 10**places + 0.5 + NUDGE)
    digits = str(abs(count)).rjust(places + 1, "0")
    shown = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{shown}" if count < 0 else shown


def trimmed(x: float, places: int) -> str:
    """``x`` with at most that many decimals, trailing zeros left out."""
    shown = decimals(x, places)
    return shown.rstrip("0").rstrip(".") if places else shown
