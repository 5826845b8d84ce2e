"""``chalkfold print``: the patterns of a post as files, and the same for the downloads of a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from slugify import slugify

from chalkfold.diagnostics import Code, Fault, Faults, Source, Span
from chalkfold.paper.dxf import NoEzdxf, dxf
from chalkfold.paper.inked import MOST_PAGES, TooManyPages
from chalkfold.paper.job import Bill, CannotPrint, Job, Order
from chalkfold.paper.papers import NoSuchPaper, Paper, paper_of
from chalkfold.paper.pattern import pattern_pages
from chalkfold.paper.pdf import joined
from chalkfold.post import work_post
from chalkfold.raster import NoCairo, Renderer
from chalkfold.reading import Text, split_front_matter
from chalkfold.show import Shower
from chalkfold.site.pages import KINDS, read_draft
from chalkfold.site.swap import RefusedError, refused
from chalkfold.trade import Shelf
from chalkfold.work import Worked

PDF, DXF = "pdf", "dxf"


@dataclass(frozen=True, slots=True)
class Asked:
    """What the command was given; empty where it was not."""

    size: str = ""
    paper: str = ""
    seam_lines: bool = False
    nested: bool = False
    dxf: bool = False
    out: Path | None = None


@dataclass(frozen=True, slots=True)
class File:
    """A file that was made, and where it is to lie."""

    path: Path
    data: bytes


def print_post(source: Source, shelf: Shelf, asked: Asked, faults: Faults) -> list[File]:
    """Make the files; nothing is written yet. Raises RefusedError; a post with faults has them in ``faults``."""
    ending = _ending(asked)
    worked = work_post(source, shelf, faults)
    if len(faults):
        return []
    bill = bill_of(worked, shelf, _title(source), _address(source))
    stem = Path(source.path).stem
    with_sizes = asked.nested or asked.size.casefold() == "all"
    try:
        paper = paper_of(asked.paper or shelf.settings.paper)
        jobs = bill.jobs(Order(paper, asked.size, not asked.seam_lines, asked.nested))
        names = list(_names(jobs, asked, stem, ending, with_sizes))
        render = None if ending == DXF else Renderer.open()
        return [File(path, _made(job, shelf, render)) for path, job in zip(names, jobs, strict=True)]
    except (NoSuchPaper, CannotPrint) as slip:
        raise _slip(source, str(slip), slip.hint) from None
    except TooManyPages:
        raise _slip(source, *too_many(paper)) from None
    except (NoCairo, NoEzdxf) as missing:
        raise RefusedError(missing_library(Span(source, 0, 0), missing)) from None


def bill_of(worked: Worked, shelf: Shelf, title: str, page: str = "") -> Bill:
    """What prints of a post are made from; ``page`` is its address on the site, if it has one."""
    write = Shower(worked.values, shelf.settings.printer, reader_chooses=False)
    address = shelf.settings.address
    corrections = f"{address}/{page}#corrections" if address and page else ""
    return Bill(write, [view for _, view in worked.views], title, shelf.settings.title, corrections)


def pattern_pdf(job: Job, language: str, render: Renderer) -> bytes:
    """One job as PDF. Raises TooManyPages."""
    title = " · ".join(filter(None, (job.said.post, job.said.sizes, job.paper.name)))
    return joined(pattern_pages(job.pieces, job.paper, job.said), title, language, render)


def missing_library(span: Span, missing: NoCairo | NoEzdxf) -> Fault:
    """What is not on this computer, and how it is installed."""
    if isinstance(missing, NoEzdxf):
        message, hint = "DXF needs the library ezdxf", "install it with `pip install 'chalkfold[dxf]'`"
    else:
        message, hint = "PDF and PNG need the cairo library, which is not on this computer", str(missing)
    return Fault(Code.PRINT_LIBRARY, message, Span(span.source, span.start, span.end), hint)


def too_many(paper: Paper) -> tuple[str, str]:
    """The message and the hint for a pattern that nobody would tape."""
    message = f"the pattern would take more than {MOST_PAGES} sheets of {paper.name}"
    return message, "choose a larger paper, such as `--paper a0`, or look for a length that is too long"


def _made(job: Job, shelf: Shelf, render: Renderer | None) -> bytes:
    return dxf(job.pieces) if render is None else pattern_pdf(job, shelf.settings.language.tag, render)


def _ending(asked: Asked) -> str:
    """PDF or DXF, by the option or the name of the file. Raises RefusedError."""
    named = asked.out.suffix.casefold().lstrip(".") if asked.out else ""
    if asked.out and (named not in (PDF, DXF) or (asked.dxf and named == PDF)):
        message = f"a pattern cannot be written as `{asked.out.name}`"
        hint = f"end its name in {'`.dxf`' if asked.dxf else '`.pdf` or `.dxf`'}"
        raise refused(Code.PRINT_ORDER, message, asked.out, hint)
    return named or (DXF if asked.dxf else PDF)


def _names(jobs: list[Job], asked: Asked, stem: str, ending: str, with_sizes: bool) -> Iterator[Path]:
    """``half-circle-skirt-M-a4.pdf``; where a name was given that one, with the size in it if there are several."""
    taken: set[str] = set()
    for job in jobs:
        size = "all-sizes" if asked.nested else file_part(job.size)
        if asked.out is not None:
            parts = [asked.out.stem, size if with_sizes and not asked.nested else ""]
        else:
            parts = [stem, size, "" if ending == DXF else file_part(job.paper.name)]
        name = unused("-".join(filter(None, parts)), taken)
        yield (asked.out.parent if asked.out else Path()) / f"{name}.{asked.out.suffix[1:] if asked.out else ending}"


def file_part(said: str) -> str:
    """A size or paper as a part of a file's name, capital letters kept."""
    return slugify(said, lowercase=False)


def unused(name: str, taken: set[str]) -> str:
    """The name, with a number behind it where another file has it, capital letters aside."""
    found, number = name, 2
    while found.casefold() in taken:
        found, number = f"{name}-{number}", number + 1
    taken.add(found.casefold())
    return found


def _address(source: Source) -> str:
    """Where the post stands on its site; nothing for a file that is no post of one."""
    page = read_draft(source, KINDS["posts"], Faults()).page if source.path.startswith("posts/") else None
    return page.address if page else ""


def _title(source: Source) -> str:
    """The title in the front matter, or the name of the file."""
    front, _ = split_front_matter(source, Faults())
    said = front.get("title") if front is not None else None
    return said.value if isinstance(said, Text) and said.value else Path(source.path).stem


def _slip(source: Source, message: str, hint: str) -> RefusedError:
    """A slip of the command's, which has no line in the post."""
    return refused(Code.PRINT_ORDER, message, Path(source.path), hint)
