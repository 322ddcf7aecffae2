"""Every command by its line in `COMMANDS` and its module; and one command more."""

import sys
from pathlib import Path
from types import ModuleType

import pytest

from generator.arguments import CommandParser
from generator.cli import main
from generator.making.options import CommandOptions
from generator.parser import COMMANDS


def test_every_command_says_what_goes_with_it(capsys: pytest.CaptureFixture[str]) -> None:
    for word, purpose in COMMANDS.items():
        with pytest.raises(SystemExit, match="0"):
            main([word, "--help"])

        told = " ".join(capsys.readouterr().out.split())
        assert told.startswith(f"usage: wickwright {word} [-h]")
        assert f"{purpose[0].upper()}{purpose[1:]}." in told


def test_a_line_and_a_module_are_a_command(
    shop_folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def run(options: CommandOptions, candle: str) -> int:
        print(f"{candle} of {options.content.name}")
        return 0

    def add_arguments(words: CommandParser) -> None:
        words.add_argument("candle")
        words.runs(run)

    module = ModuleType("generator.commands.sniff_at")
    vars(module)["add_arguments"] = add_arguments
    monkeypatch.setitem(sys.modules, module.__name__, module)
    monkeypatch.setitem(COMMANDS, "sniff-at", "say what a candle smells of")

    assert main(["sniff-at", "WG-20", "--content", str(shop_folder)]) == 0

    assert capsys.readouterr().out == "WG-20 of content\n"
