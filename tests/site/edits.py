"""What a maker does to a shop between two builds, each edit chosen by a seeded dice.

An edit says what it did, or None where there is nothing to do it to.
"""

import csv
import re
import shutil
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Final, TypeAlias

from generator.commands import issue, link, lots_add
from generator.reading.shipped import shipped
from tests.site.leaves import changed, leaves
from tests.site.small_shop import CODES, DRAWING, RECALL, TriedShop, as_csv, paint, rewrite, silently, write

Edit: TypeAlias = Callable[[TriedShop, Random], str | None]

LANGUAGES: Final = ("en", "de", "fr")
DAYS: Final = (date(2026, 5, 1), date(2026, 11, 1), date(2026, 11, 1), date(2028, 1, 1), date(2028, 5, 1))
"""The shop's own, and days on which a law changes (`model/markets.py`)."""
FAULTS: Final = ("\n: [\n", "\nno_such_key: 1\n", "\t- {\n", "\nname: twice\nname: twice\n")


def some_file(shop: TriedShop, dice: Random, pattern: str) -> Path | None:
    """A file of the entries or of the maker's own theme."""
    found = sorted(path for path in shop.folder.glob(pattern) if path.is_file() and path.name[0] != ".")
    return dice.choice(found) if found else None


def told(shop: TriedShop, path: Path) -> str:
    """The name by which an edit tells of a file."""
    return path.relative_to(shop.folder).as_posix()


def a_value(shop: TriedShop, dice: Random) -> str | None:
    every = list(leaves(shop.folder))
    file = dice.choice(sorted({leaf.file for leaf in every if "/sheets/" not in leaf.file}))
    leaf = dice.choice([leaf for leaf in every if leaf.file == file])
    others = list(changed(shop.folder, leaf))[:2]
    if not others:
        return None
    (shop.folder / file).write_bytes(dice.choice(others))
    return f"changed {leaf}"


def a_comment(shop: TriedShop, dice: Random) -> str | None:
    path = some_file(shop, dice, "content/**/*.yaml")
    if path is None:
        return None
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    lines.insert(dice.choice((0, 1, len(lines))), f"# a note {dice.randint(1, 99)}\n")
    path.write_text("".join(lines), encoding="utf-8")
    return f"comment in {told(shop, path)}"


def white_space(shop: TriedShop, dice: Random) -> str | None:
    path = some_file(shop, dice, dice.choice(("content/**/*.yaml", "content/**/*.md", "themes/**/*.html")))
    if path is None:
        return None
    text = path.read_text(encoding="utf-8")
    path.write_text(dice.choice((f"{text}\n", f"\n{text}", text.replace("\n", " \n", 1))), encoding="utf-8")
    return f"white space in {told(shop, path)}"


def scent_added(shop: TriedShop, dice: Random) -> str | None:
    text = (shop.content / "candles" / "bare-comb.yaml").read_text(encoding="utf-8")
    number = dice.randint(100, 999)
    text = re.sub(r"(?m)^    barcode: .*\n", "", text).replace("BC-", f"N{number}-")
    text = text.replace("Bare Comb", f"New Comb {number}")
    write(shop.content / "candles" / f"new-comb-{number}.yaml", text)
    return f"scent new-comb-{number} added"


def entry_removed(shop: TriedShop, dice: Random) -> str | None:
    kinds = ("candles", "candles", "recalls", "pages", "photos", "artwork", "waxes", "sheets", "fragrances")
    path = some_file(shop, dice, f"content/{dice.choice(kinds)}/*")
    if path is None:
        return None
    path.unlink()
    return f"{told(shop, path)} removed"


def entry_renamed(shop: TriedShop, dice: Random) -> str | None:
    """A file has another name, and so has it wherever the entries name it, as words of their own."""
    kind = dice.choice(
        ("candles", "fragrances", "waxes", "vessels", "formats", "wicks", "photos", "pages", "recalls")
    )
    path = some_file(shop, dice, f"content/{kind}/*")
    if path is None:
        return None
    new = path.with_stem(f"{path.stem}-{dice.randint(2, 99)}")
    path.rename(new)
    old_name, new_name = (path.name, new.name) if kind == "photos" else (path.stem, new.stem)
    for folder in ("candles", "formats", "burn-tests"):
        for user in sorted((shop.content / folder).glob("*.yaml")):
            text = user.read_text(encoding="utf-8")
            renamed = re.sub(rf"(?<![\w-]){re.escape(old_name)}(?![\w-])", new_name, text)
            if renamed != text:
                user.write_text(renamed, encoding="utf-8")
    return f"{told(shop, path)} renamed to {new.name}"


def photo_painted(shop: TriedShop, dice: Random) -> str | None:
    path = some_file(shop, dice, "content/photos/*")
    if path is None:
        return None
    paint(path, dice.choice(("teal", "tan", "plum")), (dice.choice((64, 400)), 48))
    return f"{told(shop, path)} painted anew"


def photos_swapped(shop: TriedShop, _dice: Random) -> str | None:
    first, *others = sorted((shop.content / "photos").iterdir())
    if not others:
        return None
    between = first.with_name("between.tmp")
    first.rename(between)
    others[0].rename(first)
    between.rename(others[0])
    return "photos swapped"


def photo_shown(shop: TriedShop, dice: Random) -> str | None:
    """A size shows another photo, or no photo any more."""
    path, photo = (
        shop.content / "candles" / "slate-and-samphire.yaml",
        some_file(shop, dice, "content/photos/*"),
    )
    if photo is None or not path.exists():
        return None
    text = path.read_text(encoding="utf-8")
    shown = dice.choice(("", f"    photos: [{photo.name}]\n"))
    path.write_text(re.sub(r"(?m)^    photos: .*\n|(?<=    format: tin-22\n)", shown, text, count=1), "utf-8")
    return f"SS shows {shown.strip() or 'no photo'}"


def drawing(shop: TriedShop, dice: Random) -> str | None:
    name = dice.choice(("SS-22", "SS-30", "bare-comb"))
    write(
        shop.content / "artwork" / f"{name}.svg",
        DRAWING.replace("#123456", f"#{dice.randint(100000, 999999)}"),
    )
    return f"drawing of {name}"


def page_written(shop: TriedShop, dice: Random) -> str | None:
    name = dice.choice(("about", "workroom", "care"))
    write(
        shop.content / "pages" / f"{name}.md",
        f"# The {name} {dice.randint(1, 99)}\n\nWritten [anew](index.html).\n",
    )
    return f"page {name} written"


def sheet_issued(shop: TriedShop, dice: Random) -> str | None:
    code = dice.choice((*sorted(CODES), "BC-12", "BC-12"))
    code_of_exit = silently(lambda: issue.run(shop.asked(), [code], f"reason {dice.randint(1, 99)}"))
    return f"sheet of {code} issued: {code_of_exit}"


def lot_added(shop: TriedShop, dice: Random) -> str | None:
    pour = lots_add.Pour(
        stock_code=dice.choice(sorted(CODES)), made=dice.randint(6, 60), poured_on=None, code=None
    )
    return f"lot of {pour.stock_code} added: {silently(lambda: lots_add.run(shop.asked(), pour))}"


def row_removed(shop: TriedShop, dice: Random) -> str | None:
    path = dice.choice((shop.content / "lots.csv", shop.content / "prices.csv"))
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    if len(rows) < 2:
        return None
    number = dice.randrange(1, len(rows))
    gone = rows.pop(number)
    write(path, as_csv(rows))
    return f"{gone} removed from {path.name}"


def recall_added(shop: TriedShop, dice: Random) -> str | None:
    code = dice.choice(sorted(CODES))
    text = re.sub(r"lots: .*", f"stock_codes: [{code}]", RECALL)
    write(shop.content / "recalls" / f"all-{code.lower()}.yaml", text)
    return f"{code} recalled"


def buyers_changed(shop: TriedShop, dice: Random) -> str | None:
    """A buyer comes, goes, or has another id."""
    path, number = shop.content / "trade" / "buyers.yaml", dice.randint(1, 99)
    text = path.read_text(encoding="utf-8")
    blocks = re.split(r"(?m)^(?=[a-z0-9-]+:)", text)
    how, at = dice.choice(("added", "removed", "renamed")), dice.randrange(1, max(2, len(blocks)))
    if at >= len(blocks) or how == "added":
        how = "added"
        blocks.append(
            f"shop-{number}:\n  name: Shop {number}\n  level: shop\n  country: GB\n  currency: GBP\n"
        )
    elif how == "removed":
        del blocks[at]
    else:
        blocks[at] = f"b{number}-{blocks[at]}"
    path.write_text("".join(blocks), encoding="utf-8")
    return f"buyer number {at} {how}"


def links_changed(shop: TriedShop, dice: Random) -> str | None:
    buyers = re.findall(
        r"(?m)^([a-z0-9-]+):", (shop.content / "trade" / "buyers.yaml").read_text(encoding="utf-8")
    )
    buyer = dice.choice((*buyers, "fish-steps"))
    commands: dict[str, Callable[[], int]] = {
        "made": lambda: link.run(shop.asked(), link.LinkRequest(buyer=None)),
        "renewed": lambda: link.run(shop.asked(), link.LinkRequest(buyer=buyer, renew=True)),
        "ended": lambda: link.run_end(shop.asked(), buyer),
        "all ended": lambda: link.run_end_all(shop.asked()),
    }
    how = dice.choice(sorted(commands))
    return f"link of {buyer} {how}: {silently(commands[how])}"


def language_changed(shop: TriedShop, dice: Random) -> str | None:
    language, maker = dice.choice(LANGUAGES), shop.content / "maker.yaml"
    if dice.random() < 0.3:
        buyers = shop.content / "trade" / "buyers.yaml"
        buyers.write_text(
            re.sub(r"language: \w+", f"language: {language}", buyers.read_text("utf-8")), "utf-8"
        )
        return f"a buyer reads {language}"
    kept = re.sub(r"(?m)^language: .*\n", "", maker.read_text(encoding="utf-8"))
    maker.write_text(f"{kept}language: {language}\n", encoding="utf-8")
    return f"the maker's language is {language}"


def theme_changed(shop: TriedShop, dice: Random) -> str | None:
    theme, maker = dice.choice(("mine", "mine", "netloft", "ledger")), shop.content / "maker.yaml"
    maker.write_text(re.sub(r"(?m)^theme: .*", f"theme: {theme}", maker.read_text("utf-8")), "utf-8")
    return f"the theme is {theme}"


def own_theme_edited(shop: TriedShop, dice: Random) -> str | None:
    """A file of the maker's own theme changes, comes from the theme that it extends, or goes."""
    how = dice.choice(("changed", "added", "removed"))
    if how == "added":
        source = dice.choice(sorted((shipped("themes") / "netloft").glob("[ps]*/*.*")))
        path = shop.theme / source.relative_to(shipped("themes") / "netloft")
        path.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, path)
    own = some_file(shop, dice, "themes/mine/*/*") if how != "added" else path
    if own is None:
        return None
    if how == "removed":
        own.unlink()
    else:
        text = re.sub(
            r"(\d+)(pt|mm|px|rem|vw)\b|(?<=[a-z] )[a-z]{5,}(?= [a-z]+</)", _otherwise, own.read_text("utf-8")
        )
        own.write_text(text if how == "changed" else f"{text}\n", encoding="utf-8")
    return f"{told(shop, own)} {how}"


def _otherwise(found: re.Match[str]) -> str:
    return f"{int(found[1]) + 1}{found[2]}" if found[1] else f"{found[0]}er"


def day_moved(shop: TriedShop, dice: Random) -> str | None:
    maker, day = shop.content / "maker.yaml", dice.choice(DAYS) + timedelta(days=dice.randint(-40, 40))
    if dice.random() < 0.3:
        shop.as_of = None if shop.as_of else day
        return f"asked for {shop.as_of}"
    if dice.random() < 0.4:
        shop.today = day
        return f"run on {day}"
    written = dice.choice((f"as_of: {day}", "as_of: today", "# as_of is left out"))
    maker.write_text(re.sub(r"(?m)^(# )?as_of.*", written, maker.read_text("utf-8")), "utf-8")
    return written


def asked_otherwise(shop: TriedShop, dice: Random) -> str | None:
    if shop.issued_only or dice.random() < 0.8:
        shop.issued_only = False
        shop.drafts = not shop.drafts
        return f"drafts: {shop.drafts}"
    shop.issued_only = True
    return "issued only"


def fault_put_in(shop: TriedShop, dice: Random) -> str | None:
    path = some_file(shop, dice, "content/**/*.yaml")
    if path is None:
        return None
    path.write_text(path.read_text(encoding="utf-8") + dice.choice(FAULTS), encoding="utf-8")
    return f"fault put into {told(shop, path)}"


def shelf_added(shop: TriedShop, dice: Random) -> str | None:
    number = dice.randint(1, 99)
    rewrite(
        shop.content / "collections.yaml",
        "the-loft:\n",
        f"shelf-{number}:\n  name: Shelf {number}\nthe-loft:\n",
    )
    return f"shelf {number} added"


def odd_file_added(shop: TriedShop, dice: Random) -> str | None:
    name = dice.choice(("candels/x.yaml", "notes.txt", "photos/unused.jpg", "label-stock/other.yaml"))
    write(shop.content / name, "name: Odd\n")
    return f"{name} added"


EDITS: Final[tuple[Edit, ...]] = (
    *(a_value,) * 8,
    *(a_comment, white_space, scent_added, entry_removed, entry_renamed, entry_renamed),
    *(photo_painted, photos_swapped, photo_shown, drawing, page_written),
    *(sheet_issued, sheet_issued, lot_added, row_removed, recall_added, shelf_added, odd_file_added),
    *(buyers_changed, links_changed, links_changed, language_changed, theme_changed),
    *(own_theme_edited, own_theme_edited, day_moved, asked_otherwise, fault_put_in),
)
