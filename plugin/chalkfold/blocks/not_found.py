"""What is said of goods, a book or a size chart that is on no shelf."""

from __future__ import annotations

from chalkfold.diagnostics import Code, Faults, near
from chalkfold.formula import key_of
from chalkfold.reading import Text
from chalkfold.trade import Shelf

CALLED = {"chart": "size chart"}
OTHERWISE = {
    "book": "A new one goes into `books/NAME.yml`",
    "chart": "For sizes of the post's own write a list, as in `sizes: [small, large]`; or `sizes: none`",
    "donor": "A new one goes into `donors/NAME.yml`",
    "fabric": "A new one goes into `fabrics.yml`",
    "notion": "A new one goes into `notions.yml`",
}


def not_found(kind: str, name: Text, shelf: Shelf, faults: Faults) -> None:
    """Report a name that is on no shelf; one that stands there and is faulty has been reported already."""
    known = shelf.names(kind)
    if not shelf.is_whole(kind) or key_of(name.value) in {key_of(each) for each in known}:
        return
    likely = near(name.value, known)
    hint = f"did you mean `{likely}`?" if likely else f"the {kind}s are: {shelf.offers(kind)}."
    message = f"there is no {CALLED.get(kind, kind)} called `{name.value}`"
    faults.add(Code.PLAN_NOT_FOUND, message, name.span(), f"{hint} {OTHERWISE[kind]}")
