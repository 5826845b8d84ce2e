"""``cut from:`` and ``notions:``: which goods play which role in a post."""

from __future__ import annotations

from chalkfold.blocks.not_found import not_found
from chalkfold.diagnostics import Code, Faults, near
from chalkfold.formula import key_of
from chalkfold.reading import Entry, Fields, Mapping, Text
from chalkfold.trade import Goods, Shelf

Roles = dict[str, tuple[Goods, str | None]]


def read_roles(fields: Fields, shelf: Shelf, faults: Faults, broken: set[str]) -> Roles:
    """Return the goods in each role, with the donor's size the post was made from; faulty ones go to ``broken``."""
    roles: Roles = {}
    for key, usual in (("cut from", "fabric"), ("notions", "notion")):
        for entry in fields.mapping(key) or ():
            before = len(faults)
            found = _role(entry, usual, shelf, faults)
            if len(faults) > before:
                broken.add(key_of(entry.key.value))
            if found is None:
                continue
            if key_of(entry.key.value) in {key_of(role) for role in roles}:
                faults.add(
                    Code.BLOCK_TWICE,
                    f"there are two roles called `{entry.key.value}`",
                    entry.key.span(),
                    "give each role a name of its own",
                )
                continue
            roles[entry.key.value] = found
    return roles


def _role(entry: Entry, usual: str, shelf: Shelf, faults: Faults) -> tuple[Goods, str | None] | None:
    if isinstance(entry.value, Text):
        goods = _goods(usual, entry.value, shelf, faults)
        return (goods, None) if goods else None
    if not isinstance(entry.value, Mapping):
        faults.add(
            Code.DATA_SHAPE,
            f"`{entry.key.value}` needs the name of what it is cut from",
            entry.key.span(),
            f"write `{entry.key.value}: {{fabric: linen}}`",
        )
        return None
    fields = Fields(entry.value, faults, f"the role `{entry.key.value}`")
    named = [(kind, text) for kind in ("donor", "fabric", "notion") if (text := fields.text(kind))]
    sample = fields.text("sample")
    fields.finish()
    if len(named) != 1:
        faults.add(
            Code.DATA_MISSING_KEY,
            f"the role `{entry.key.value}` needs just one of `donor`, `fabric` or `notion`",
            entry.key.span(),
            f"write `{entry.key.value}: {{{usual}: …}}`",
        )
        return None
    kind, text = named[0]
    goods = _goods(kind, text, shelf, faults)
    return None if goods is None else (goods, _size(goods, sample, faults))


def _goods(kind: str, name: Text, shelf: Shelf, faults: Faults) -> Goods | None:
    goods = shelf.goods(kind, name.value, faults)
    if goods is None:
        not_found(kind, name, shelf, faults)
    return goods


def _size(goods: Goods, sample: Text | None, faults: Faults) -> str | None:
    if sample is None:
        return None
    found = next((size for size in goods.sizes if key_of(size) == key_of(sample.value)), None)
    if found is None:
        likely = near(sample.value, goods.sizes)
        sizes = ", ".join(goods.sizes) or "none"
        faults.add(
            Code.PLAN_SIZE_UNKNOWN,
            f"the {goods.kind} `{goods.name}` has no size `{sample.value}`",
            sample.span(),
            f"did you mean `{likely}`?" if likely else f"its sizes are: {sizes}",
        )
    return found
