"""What is seen of files that are saved, and when it is told."""

import os
from pathlib import Path

import pytest

from generator.writing.watched_files import WatchedFiles, seen_below


def _names(folder: Path) -> list[str]:
    return sorted(Path(path).relative_to(folder).as_posix() for path in seen_below((folder,)))


def _written(path: Path, text: str = "x") -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_every_file_below_is_seen_but_dot_files_and_what_dot_folders_hold(tmp_path: Path) -> None:
    for name in ("a.yaml", "b [1]/c/d.yaml", ".e.yaml", ".git/f", "b [1]/.wickwright-0123abcd.part"):
        _written(tmp_path / name)

    assert _names(tmp_path) == ["a.yaml", "b [1]/c/d.yaml"]


def test_folders_that_are_not_there_hold_nothing(tmp_path: Path) -> None:
    assert seen_below((tmp_path / "none", _written(tmp_path / "file"))) == {}


def _linked(link: Path, to: Path) -> None:
    try:
        link.symlink_to(to, target_is_directory=to.is_dir())
    except OSError:
        pytest.skip("this system lets nobody make links")


def test_links_are_followed_to_files_and_to_each_folder_once(tmp_path: Path) -> None:
    shop, elsewhere = tmp_path / "shop", tmp_path / "elsewhere"
    _written(shop / "own.yaml")
    _written(elsewhere / "far.yaml")
    _linked(shop / "folder", elsewhere)
    _linked(shop / "file.yaml", elsewhere / "far.yaml")
    _linked(shop / "nowhere", tmp_path / "none")
    _linked(elsewhere / "back", shop)

    names = _names(shop)

    assert {"own.yaml", "file.yaml", "folder/far.yaml"} <= {*names}
    assert len(names) == 5  # and through the way back, once, the shop's own two files
    before = seen_below((shop,))
    _written(elsewhere / "far.yaml", "another text")
    assert seen_below((shop,)) != before


def test_a_file_of_the_same_size_and_time_in_the_place_of_another_is_seen(tmp_path: Path) -> None:
    path = _written(tmp_path / "a.yaml", "8 mm")
    before, time_ns = seen_below((tmp_path,)), path.stat().st_mtime_ns
    other = _written(tmp_path / ".a.yaml", "9 mm")
    os.utime(other, ns=(time_ns, time_ns))
    if os.name == "nt":
        pytest.skip("a look tells no number of a file there")

    other.replace(path)

    assert seen_below((tmp_path,)) != before


def test_a_change_is_told_once_and_only_when_it_has_come_to_rest(tmp_path: Path) -> None:
    path = _written(tmp_path / "a.yaml")
    files = WatchedFiles((tmp_path,))
    told = [files.have_changed()]

    for text in ("xx", "xxx"):
        _written(path, text)
        told.append(files.have_changed())
    told += [files.have_changed() for _ in range(3)]
    path.unlink()
    told += [files.have_changed() for _ in range(3)]

    assert told == [False, False, False, True, False, False, False, True, False]


def test_what_was_there_again_before_it_came_to_rest_is_no_change(tmp_path: Path) -> None:
    path = _written(tmp_path / "a.yaml")
    files = WatchedFiles((tmp_path,))

    path.rename(tmp_path / "b.yaml")
    told = [files.have_changed()]
    (tmp_path / "b.yaml").rename(path)
    told += [files.have_changed() for _ in range(3)]

    assert told == [False, False, False, False]


def test_a_long_look_is_followed_by_a_rest_ten_times_as_long(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ticks = iter((0.0, 0.2, 10.0, 10.2, 20.0, 20.2))
    monkeypatch.setattr("generator.writing.watched_files.perf_counter", lambda: next(ticks))
    files = WatchedFiles((tmp_path,))

    def rest_s() -> float:
        files.have_changed()
        return round(files.rest_s, 3)

    assert rest_s() == 2.0
    _written(tmp_path / "a.yaml")
    assert rest_s() == 0.04  # Whoever is saving waits for the page.
    assert rest_s() == 2.0
