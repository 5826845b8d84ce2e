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


MOST_OFFERED = 12


def _offered(kind: str, asked: str, shelf: Shelf) -> str:
    """Those with a word of the one that was asked for; where there is none, what there is at all."""
    words = {word for word in key_of(asked).split() if len(word) > 2 and word != "the"}
    alike = [f"`{name}`" for name in shelf.names(kind) if words & set(key_of(name).split())]
    if alike:
        return f"with a word of it there are: {', '.join(alike[:MOST_OFFERED])}."
    return f"the {kind}s are: {shelf.offers(kind)}."


def not_found(kind: str, name: Text, shelf: Shelf, faults: Faults) -> None:
    """Report a name that is on no shelf; one that stands there and is faulty has been reported already."""
    known = shelf.names(kind)
    if not shelf.is_whole(kind) or key_of(name.value) in {key_of(each) for each in known}:
        return
    likely = near(name.value, known)
    hint = f"did you mean `{likely}`?" if likely else _offered(kind, name.value, shelf)
    message = f"there is no {CALLED.get(kind, kind)} called `{name.value}`"
    faults.add(Code.PLAN_NOT_FOUND, message, name.span(), f"{hint} {OTHERWISE[kind]}")
