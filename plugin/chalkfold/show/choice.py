"""The bar where a reader chooses size and unit: radio inputs, so it needs no script."""

from __future__ import annotations

from chalkfold.plan import Choice
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, escape, lines

UNITS = {
    "cm": (("both", "cm & in"), ("cm", "cm"), ("in", "in")),
    "in": (("both", "in & cm"), ("in", "in"), ("cm", "cm")),
}
SAID = {"both": "centimetres and inches", "cm": "centimetres", "in": "inches"}


def choice(write: Lines, view: Choice) -> str:
    """The bar; where nobody can choose, a sentence that says what the page shows."""
    sizes = write.sizes
    if not write.reader_chooses:
        if not sizes.many:
            return ""
        text = f"Sizes {', '.join(sizes.labels)}. The text is for size {sizes.labels[sizes.sample]}."
        return f"<p{attributes(id=view.frame.id)}>{escape(text)}</p>"
    title = write.plain(view.frame.title, sizes.sample) or "Size and units"
    return lines(
        f'<div class="bar" role="group"{attributes(id=view.frame.id, aria_label=title)}>',
        _sizes(write) if sizes.many else "",
        _units(write),
        "</div>",
        *write.below(view.frame),
        f'<p class="for-print">Size {write.by_size.size_name}</p>' if sizes.many else "",
    )


def _sizes(write: Lines) -> str:
    labels = [
        _label(f"{write.prefix}size", label, f"z{number}", label, number == write.sizes.sample)
        for number, label in enumerate(write.sizes.labels)
    ]
    return lines('<fieldset class="sizes">', "<legend>Size</legend>", *labels, "</fieldset>")


def _units(write: Lines) -> str:
    labels = [
        _label(f"{write.prefix}units", unit, f"u-{unit}", label, unit == "both", SAID[unit])
        for unit, label in UNITS[write.quantities.printer.main_unit]
    ]
    return lines('<fieldset class="units">', "<legend>Show</legend>", *labels, "</fieldset>")


def _label(name: str, value: str, css: str, label: str, chosen: bool, said: str = "") -> str:
    given = attributes(type="radio", name=name, value=value, class_=css, data_say=said)
    checked = " checked" if chosen else ""
    return f"<label><input{given}{checked}>{element('span', escape(label))}</label>"
