"""What commands share that know nothing of sewing: the day they run on, and how seldom memory is looked through."""

from __future__ import annotations

import gc
import os
from datetime import UTC, date, datetime

import click


def collect_seldom() -> None:
    """Hardly anything goes round in circles here, and looking for it costs a tenth of the time."""
    gc.set_threshold(100_000, 50, 50)


def today() -> date:
    """Today, or the day ``SOURCE_DATE_EPOCH`` says, as reproducible builds agree on."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        return date.today()
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    except (ValueError, OverflowError, OSError):
        raise click.UsageError("SOURCE_DATE_EPOCH must be a whole number of seconds since 1970") from None
