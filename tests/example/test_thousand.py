import re
from pathlib import Path

from tests.example.thousand import write_shop


def _files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def _stock_codes(folder: Path) -> list[str]:
    texts = (path.read_text(encoding="utf-8") for path in folder.glob("candles/*.yaml"))
    return [code for text in texts for code in re.findall(r"stock_code: (\S+)", text)]


def test_the_shop_has_exactly_as_many_different_stock_codes_as_asked_for(tmp_path: Path) -> None:
    write_shop(tmp_path, codes=137)

    codes = _stock_codes(tmp_path)
    assert (len(codes), len(set(codes))) == (137, 137)


def test_the_same_seed_writes_the_same_bytes(tmp_path: Path) -> None:
    write_shop(tmp_path / "one", codes=40, seed=7)
    write_shop(tmp_path / "other", codes=40, seed=7)

    assert _files(tmp_path / "one") == _files(tmp_path / "other")


def test_another_seed_writes_another_shop(tmp_path: Path) -> None:
    write_shop(tmp_path / "one", codes=40, seed=7)
    write_shop(tmp_path / "other", codes=40, seed=8)

    assert _files(tmp_path / "one") != _files(tmp_path / "other")


def test_every_tenth_stock_code_has_burn_tests(tmp_path: Path) -> None:
    write_shop(tmp_path, codes=60)

    assert len(list(tmp_path.glob("burn-tests/*.csv"))) == 6
