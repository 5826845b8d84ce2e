"""A failed, refused or killed build leaves the last good site; a finished one replaces it whole."""

from __future__ import annotations

import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from chalkfold.diagnostics import Code
from chalkfold.site import swap
from chalkfold.site.swap import MARKER, Change, RefusedError, changing


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "workshop"
    (folder / "posts").mkdir(parents=True)
    return folder


@pytest.fixture(params=["exchange", "two renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways of putting the new folder in place."""
    if request.param == "two renames":
        monkeypatch.setattr(swap, "exchange", lambda _one, _other: False)
    return str(request.param)


def write_site(site: Path, out: Path, text: str) -> None:
    with changing(site, out) as change:
        (change.new / "index.html").write_text(text)
        change.swap_in()


def shown(out: Path) -> str:
    return (out / "index.html").read_text()


def leftovers(site: Path) -> list[str]:
    return sorted(path.name for path in site.iterdir() if path.name.endswith(("-new", "-old")))


@pytest.mark.usefixtures("way")
def test_each_build_replaces_the_last_one_whole(site: Path) -> None:
    out = site / "public"
    write_site(site, out, "first")
    (out / "stray.html").write_text("from an older build")
    write_site(site, out, "second")
    assert shown(out) == "second"
    assert sorted(path.name for path in out.iterdir()) == [MARKER, "index.html"]
    assert leftovers(site) == []


@pytest.mark.usefixtures("way")
def test_a_build_that_fails_half_way_leaves_the_last_site(site: Path) -> None:
    out = site / "public"
    write_site(site, out, "first")
    with pytest.raises(OSError, match="disk full"), changing(site, out) as change:
        (change.new / "index.html").write_text("half")
        raise OSError("disk full")
    assert shown(out) == "first"
    assert leftovers(site) == []


def test_a_build_without_a_swap_leaves_the_last_site(site: Path) -> None:
    write_site(site, site / "public", "first")
    with changing(site, site / "public") as change:
        (change.new / "index.html").write_text("with faults")
    assert shown(site / "public") == "first"


def test_when_the_second_of_two_renames_fails_the_first_is_undone(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = site / "public"
    write_site(site, out, "first")
    monkeypatch.setattr(swap, "exchange", lambda _one, _other: False)
    rename = Path.rename

    def fails_once(self: Path, target: Path) -> Path:
        if self.name.endswith("-new"):
            raise OSError("in use")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fails_once)
    with pytest.raises(OSError, match="in use"), changing(site, out) as change:
        change.swap_in()
    assert shown(out) == "first"


def test_a_build_killed_between_two_renames_is_put_back_by_the_next(site: Path) -> None:
    out = site / "public"
    write_site(site, out, "first")
    out.rename(Change(out).old)
    with changing(site, out):
        assert shown(out) == "first"
    assert shown(out) == "first"
    assert leftovers(site) == []


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal")
def test_a_build_killed_while_writing_leaves_the_last_site_and_the_next_cleans_up(site: Path) -> None:
    out = site / "public"
    write_site(site, out, "first")
    program = f"""
        import sys
        from pathlib import Path
        from chalkfold.site.swap import changing
        with changing(Path({str(site)!r}), Path({str(out)!r})) as change:
            (change.new / "index.html").write_text("half")
            print("writing", flush=True)
            sys.stdin.read()
    """
    with subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(program)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as build:
        assert build.stdout is not None
        assert build.stdout.readline() == b"writing\n"
        with pytest.raises(RefusedError) as busy, changing(site, out):
            pass
        build.send_signal(signal.SIGKILL)
    assert busy.value.fault.code is Code.SITE_BUSY
    assert shown(out) == "first"
    assert leftovers(site) == [".public.chalkfold-new"]
    write_site(site, out, "second")
    assert shown(out) == "second"
    assert leftovers(site) == []


@pytest.mark.parametrize(
    ("out", "why"),
    [
        (".", "replace the site itself"),
        ("..", "the site itself lies in this folder"),
        ("../other/posts/web", "among your own files in posts/"),
        ("posts", "among your own files in posts/"),
        ("photos/web", "among your own files in photos/"),
        ("chalkfold.yml", "a file, not a folder"),
        ("drafts", "files that chalkfold did not write"),
    ],
)
def test_a_folder_that_is_not_ours_is_refused_and_kept(site: Path, out: str, why: str) -> None:
    (site / "chalkfold.yml").write_text("title: Workshop\n")
    (site.parent / "other").mkdir()
    (site.parent / "other" / "chalkfold.yml").write_text("title: Another workshop\n")
    (site / "drafts").mkdir()
    (site / "drafts" / "idea.txt").write_text("keep me")
    before = sorted(site.rglob("*"))
    with pytest.raises(RefusedError) as refused, changing(site, site / out):
        pass
    assert why in refused.value.fault.message
    assert "--out" in refused.value.fault.hint
    assert sorted(site.rglob("*")) == before


def test_an_empty_folder_and_a_folder_elsewhere_are_fine(site: Path, tmp_path: Path) -> None:
    (site / "public").mkdir()
    write_site(site, site / "public", "inside")
    write_site(site, tmp_path / "www" / "workshop", "elsewhere")
    assert shown(site / "public") == "inside"
    assert shown(tmp_path / "www" / "workshop") == "elsewhere"


def test_a_link_to_the_output_folder_is_followed_not_replaced(site: Path, tmp_path: Path) -> None:
    write_site(site, tmp_path / "www", "first")
    (site / "public").symlink_to(tmp_path / "www")
    write_site(site, site / "public", "second")
    assert (site / "public").is_symlink()
    assert shown(tmp_path / "www") == "second"


def test_a_folder_beside_the_site_that_only_looks_like_ours_is_never_removed(site: Path) -> None:
    impostor = site / ".public.chalkfold-old"
    impostor.mkdir()
    (impostor / "diary.txt").write_text("mine")
    write_site(site, site / "public", "first")
    assert (impostor / "diary.txt").read_text() == "mine"


@pytest.mark.skipif(sys.platform != "linux", reason="a call of Linux")
def test_the_exchange_is_one_step_and_says_when_it_cannot(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    (one / "a").touch()
    assert swap.exchange(one, other)
    assert (other / "a").exists()
    assert not swap.exchange(one, tmp_path / "missing")
