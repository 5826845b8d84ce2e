"""Where the themes and the demo site lie: one answer for a checkout, an editable install and a wheel."""

from pathlib import Path


def shipped(name: str) -> Path:
    """Return the folder ``themes`` or ``content_example`` as it ships with this copy of chalkfold."""
    inside_wheel = Path(__file__).parent / "shipped" / name
    return inside_wheel if inside_wheel.is_dir() else Path(__file__).parents[2] / name
