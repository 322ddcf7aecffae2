"""``ufi new STOCK_CODE``: a UFI for the recipe of a candle, and its row in the book of UFIs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.arguments import CommandParser
from generator.facts.notification_checks import moved_from_notified, shares_of_recipe
from generator.ledgers.books import with_made_ufi
from generator.making.load_shop import load_sound_shop
from generator.making.loaded_shop import SoundShop
from generator.making.one_writer import writes_content
from generator.making.options import CommandOptions
from generator.making.report import Refusal, refuse, report_faults, say, unknown_codes
from generator.model.company_numbers import COMPANY_KEY, Company, company_of
from generator.model.notified import MadeUfi, NotedShare
from generator.model.sheet_values import ShareRange
from generator.model.shop import Shop
from generator.model.ufi import MOST_FORMULATIONS, UfiParts, parts_of_ufi, ufi_of
from generator.problems import is_error
from generator.reading.ufi_book import UFI_BOOK
from generator.rules.hazards.recorded_ufis import each_size, notifier, ufi_of_code
from generator.rules.trade.tax_numbers import is_plausible
from generator.writing.whole_files import record

_NONE_MADE: Final = "no UFI was made"
_ASK: Final = (
    "give --vat with your VAT number and its country's letters, or --company-key with the key that the generator "
    "of ECHA, the European Chemicals Agency, made for you; a key cannot be made up"
)
_NO_COMPANY: Final = Refusal(
    what="a UFI is made from a VAT number or a company key", then=_NONE_MADE, fix=_ASK
)
_NOTIFIED: Final = "notified: {by: ..., countries: [...], on: year-month-day}"
_NEXT: Final = {
    "maker": "notify the mixture in each country where you sell it, before you print the UFI on a label",
    "NPIS": "for Northern Ireland send the notification to the NPIS; in the EU your importer or contact there notifies",
    "contact": "a maker outside the EU cannot notify: your importer or contact there does, by this UFI or by its own",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class UfiOrder:
    """What a UFI is wanted for; without a VAT number or key it is made from that of the last one in the book."""

    stock_code: str
    vat: str | None
    company_key: str | None
    number: int | None


def add_arguments(words: CommandParser) -> None:
    """Whose recipe, and whose number."""
    words.add_argument("stock_code", metavar="STOCK_CODE")
    whose = words.add_mutually_exclusive_group()
    whose.add_argument(
        "--vat", metavar="NUMBER", help="your VAT number with its country's letters; asked for once"
    )
    whose.add_argument("--company-key", metavar="KEY", help="instead, the key that ECHA's generator gave you")
    help_ = f"the formulation's number, 0 to {MOST_FORMULATIONS}, if the next one is taken elsewhere"
    words.add_argument("--number", metavar="N", type=int, help=help_)
    words.runs(lambda options, **order: run(options, UfiOrder(**order)))


@writes_content("ufi new")
def run(options: CommandOptions, order: UfiOrder) -> int:
    """Exit code 0 when the UFI is told, 1 when entries stand in the way, 2 for what none can be made from."""
    sound = load_sound_shop(options)
    if not isinstance(sound, SoundShop):
        return report_faults(options, filter(is_error, sound), _NONE_MADE)
    if unknown := unknown_codes((order.stock_code,), sound.sizes, _NONE_MADE):
        return refuse(*unknown, as_json=options.as_data)
    shop, shares = sound.shop, shares_of_recipe(sound.sizes[order.stock_code].recorded)
    company = _company(shop, order)
    if isinstance(company, Refusal):
        return refuse(company, as_json=options.as_data)
    if refusal := _refusal(sound, order, company):
        return refuse(refusal, as_json=options.as_data)
    made = _made_before(shop, company, shares)
    is_new = made is None
    if made is None:
        made = MadeUfi(
            ufi=ufi_of(UfiParts(company, _number(shop, order, company))),
            stock_code=order.stock_code,
            made_on=shop.as_of,
            shares=tuple(NotedShare(key, share) for key, share in shares.items()),
        )
        _write(options.content / UFI_BOOK, made)
    _say(options, shop, made, is_new=is_new)
    return 0


def _company(shop: Shop, order: UfiOrder) -> Company | Refusal:
    """Whose UFI it will be; a company key is never invented."""
    written = order.vat or order.company_key
    if written is None:
        last = shop.made_ufis[-1:]
        return parts_of_ufi(last[0].ufi).company if last else _NO_COMPANY
    try:
        company = company_of(written)
    except ValueError as fault:
        return Refusal(what=str(fault), then=_NONE_MADE, fix=_ASK)
    if (company.country == COMPANY_KEY) != (order.vat is None):
        return Refusal(what=f"'{written}' is the other sort of number", then=_NONE_MADE, fix=_ASK)
    if order.vat is not None and not is_plausible(order.vat):
        fix = "write it as your tax office prints it"
        return Refusal(what=f"the check digits of '{written}' do not fit", then=_NONE_MADE, fix=fix)
    return company


def _refusal(sound: SoundShop, order: UfiOrder, company: Company) -> Refusal | None:
    """Why this recipe gets no new UFI, or not under this number."""
    shop, code = sound.shop, order.stock_code
    has = ufi_of_code(shop, code)
    if has is not None and has.shares and not moved_from_notified(sound.sizes[code].recorded, has):
        what = f"{code} has UFI {has.ufi}, and its recipe is still what that was notified with"
        return Refusal(what=what, then=_NONE_MADE, fix="keep that one")
    number = _number(shop, order, company)
    next_free = "leave --number out for the next free one"
    if not 0 <= number <= MOST_FORMULATIONS:
        what = f"a formulation's number is 0 to {MOST_FORMULATIONS}, and {number} is not"
        return Refusal(what=what, then=_NONE_MADE, fix=next_free)
    if number in _taken(shop, company):
        what = f"number {number} is taken, and none is used twice"
        return Refusal(what=what, then=_NONE_MADE, fix=next_free)
    return None


def _taken(shop: Shop, company: Company) -> frozenset[int]:
    """Every number that the company's recipes have had, in the book and in entries."""
    ufis = [made.ufi for made in shop.made_ufis]
    ufis += [ufi for candle, _, size in each_size(shop) for ufi in (candle.ufi, size.ufi) if ufi]
    parts = map(parts_of_ufi, ufis)
    return frozenset(each.formulation for each in parts if each.company == company)


def _number(shop: Shop, order: UfiOrder, company: Company) -> int:
    """A running number, so that it gives nothing away, and none that was ever used."""
    return max(_taken(shop, company), default=0) + 1 if order.number is None else order.number


def _made_before(shop: Shop, company: Company, shares: Mapping[str, ShareRange]) -> MadeUfi | None:
    """The UFI that was made for the very same recipe, so that sizes of one recipe share it."""
    same = (
        made for made in shop.made_ufis if made.by_key == shares and parts_of_ufi(made.ufi).company == company
    )
    return next(same, None)


def _write(book: Path, made: MadeUfi) -> None:
    record(book, with_made_ufi(book.read_bytes() if book.exists() else b"", made))


def _say(options: CommandOptions, shop: Shop, made: MadeUfi, *, is_new: bool) -> None:
    parts = parts_of_ufi(made.ufi)
    lines = (*_lines(shop, made, parts, is_new=is_new),)
    data = {
        "ufi": made.ufi,
        "stock_code": made.stock_code,
        "formulation": parts.formulation,
        "is_new": is_new,
        "notes": lines[1:],
    }
    next_step = f"wickwright papers notification {made.stock_code}"
    say(lines, data, as_json=options.as_data, next_step=next_step)


def _lines(shop: Shop, made: MadeUfi, parts: UfiParts, *, is_new: bool) -> Iterator[str]:
    whose = "company key" if parts.company.country == COMPANY_KEY else "VAT number"
    made_of = f"number {parts.formulation} of {whose} {parts.company.numbers[0]}"
    if is_new:
        yield f"made: UFI {made.ufi} for the recipe of {made.stock_code}, {made_of}; it is in {UFI_BOOK}"
    else:
        yield f"UFI {made.ufi} was made for this recipe on {made.made_on}, for {made.stock_code}, {made_of}"
    yield f"    write ufi: {made.ufi} in the entry"
    yield f"    {_NEXT[notifier(shop.maker)]}"
    yield f"    then record it: {_NOTIFIED}"
