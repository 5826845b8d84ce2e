"""Places and faults: one type for where, one for what is wrong, one printer, one closed list of codes.

Every other room reports through this one and none formats a position by itself. Offsets travel;
they turn into ``file:line:col`` only when a fault prints. Change the wording of a code in ``codes.yml``.
"""

from chalkfold.diagnostics.codes import Code
from chalkfold.diagnostics.faults import MOST_PLACES, Fault, Faults
from chalkfold.diagnostics.places import Source, Span
from chalkfold.diagnostics.printer import as_data, as_text
from chalkfold.diagnostics.spelling import near

__all__ = ["MOST_PLACES", "Code", "Fault", "Faults", "Source", "Span", "as_data", "as_text", "near"]
