"""Views become HTML and plain text, for our own pages (the reader chooses size and unit) and for others.

No arithmetic on measures here: values come worked out, and ``amounts`` prints them. Everything is escaped,
no line is blank or indented, and equal views give equal bytes.
"""

from chalkfold.show.complete import is_complete
from chalkfold.show.faults import fault_box, waiting_box
from chalkfold.show.shower import Shower
from chalkfold.show.sums import numbers_of, sums

__all__ = ["Shower", "fault_box", "is_complete", "numbers_of", "sums", "waiting_box"]
