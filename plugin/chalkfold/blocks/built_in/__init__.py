"""Checks that are made by themselves: what each asks stands in ``trade/checks.yml``, what it applies to is found here."""

from chalkfold.blocks.built_in.casings import casings
from chalkfold.blocks.built_in.made import Finder, make
from chalkfold.blocks.built_in.pulled_on import elastics, pulled_on
from chalkfold.blocks.built_in.tubes import tubes
from chalkfold.blocks.desk import Desk
from chalkfold.trade.built_in import built_in_checks

FINDERS: dict[str, Finder] = {
    "pull-on": pulled_on,
    "elastic reaches": elastics,
    "casing": casings,
    "turning": tubes,
}


def make_built_in_checks(desk: Desk) -> None:
    """Make each, unless the post says that it is not needed."""
    for name, check in built_in_checks().items():
        if name not in desk.not_needed:
            for found in FINDERS[name](desk):
                make(check, found, desk)
