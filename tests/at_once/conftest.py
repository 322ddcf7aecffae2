"""The process that is copied for each command, and small shops of which any number can be had."""

import shutil
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from tests.at_once.forks import Forks, forks
from tests.conftest import PROJECT
from tests.example.trade import sell_to_the_trade

NewShop = Callable[[], Path]


@pytest.fixture(name="forked", scope="session")
def _forked() -> Iterator[Forks]:
    with forks() as process:
        yield process


@pytest.fixture(name="template", scope="session")
def _template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop with two trade buyers, a folder to publish to, and a candle whose burn test is still to come."""
    content = tmp_path_factory.mktemp("template") / "content"
    shutil.copytree(PROJECT / "generator" / "data" / "first_shop", content)
    sell_to_the_trade(content)
    (content / "publish.yaml").write_text("disk: {to: folder, folder: ../web}\n", encoding="utf-8")
    candle = content / "candles" / "wet-garden.yaml"
    text = candle.read_text(encoding="utf-8").replace("    burn_time: burn-tests/WG-20.csv\n", "")
    candle.write_text(text, encoding="utf-8")
    shutil.rmtree(content / "burn-tests")
    return content


@pytest.fixture(name="new_shop")
def _new_shop(template: Path, tmp_path: Path) -> NewShop:
    """Another copy at each call, in a folder of its own, beside the folder that it is published to."""
    numbers = count(1)

    def new_shop() -> Path:
        shop = tmp_path / f"shop-{next(numbers)}"
        shutil.copytree(template, shop / "content")
        (shop / "web").mkdir()
        return shop

    return new_shop
