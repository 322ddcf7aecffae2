"""``ufi read UFI``: whether it can be one, and whose number it holds."""

from generator.arguments import CommandParser
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, say
from generator.model.company_numbers import COMPANY_KEY
from generator.model.ufi import parts_of_ufi, ufi_or_fault


def add_arguments(words: CommandParser) -> None:
    """The UFI."""
    words.add_argument("written", metavar="UFI", help="its sixteen characters")
    words.runs(run)


def run(options: CommandOptions, written: str) -> int:
    """Exit code 0 when it is told what the UFI holds, 2 where it cannot be one."""
    ufi, fault = ufi_or_fault(written)
    if ufi is None:
        fix = "compare it with the notification, character by character"
        return refuse(Refusal(what=f"the UFI {fault}", fix=fix), as_json=options.as_data)
    parts = parts_of_ufi(ufi)
    numbers, country = parts.company.numbers, parts.company.country
    whose = "company key" if country == COMPANY_KEY else f"VAT number of {country}"
    shared = f"{whose}: one of {', '.join(numbers)}, which make the same UFI"
    lines = (
        f"UFI {ufi}: check character, country and version are right",
        f"{whose}: {numbers[0]}" if len(numbers) == 1 else shared,
        f"company value: {parts.company.value}",
        f"formulation number: {parts.formulation}",
    )
    data = {
        "ufi": ufi,
        "country": country or None,
        "numbers": numbers,
        "company_value": parts.company.value,
        "formulation": parts.formulation,
    }
    say(lines, data, as_json=options.as_data)
    return 0
