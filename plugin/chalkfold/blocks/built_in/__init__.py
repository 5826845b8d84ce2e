"""Checks made by themselves. What each asks stands in ``trade/checks.yml``; here is found what it applies to."""

from chalkfold.blocks.built_in.back_check import back_check
from chalkfold.blocks.built_in.casings import casings
from chalkfold.blocks.built_in.counts import counts
from chalkfold.blocks.built_in.facings import facings
from chalkfold.blocks.built_in.gaps import gaps
from chalkfold.blocks.built_in.gathered import gathered
from chalkfold.blocks.built_in.hems import hems
from chalkfold.blocks.built_in.made import Finder, make
from chalkfold.blocks.built_in.pulled_on import elastics, pulled_on
from chalkfold.blocks.built_in.quarters import quarters
from chalkfold.blocks.built_in.tubes import tubes
from chalkfold.blocks.built_in.walking import walking
from chalkfold.blocks.desk import Desk
from chalkfold.trade.built_in import built_in_checks

FINDERS: dict[str, Finder] = {
    "pull-on": pulled_on,
    "elastic reaches": elastics,
    "casing": casings,
    "turning": tubes,
    "half and quarter": quarters,
    "facing": facings,
    "walking ease": walking,
    "gathers": gathered,
    "hem depth": hems,
    "counts": counts,
    "positions": gaps,
    "back-check": back_check,
}


def make_built_in_checks(desk: Desk) -> None:
    """Make each, unless the post says that it is not needed."""
    for name, check in built_in_checks().items():
        if name not in desk.not_needed:
            for found in FINDERS[name](desk):
                make(check, found, desk)
