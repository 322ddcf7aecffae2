"""A small shop that sells to the trade: terms and two buyers, for the tests of links and sealed sheets."""

from pathlib import Path
from typing import Final

TERMS: Final = """\
opening_order: 150.00
repeat_order: 75.00
lead_time: 10 working days
payment: with the first order
carriage: 9.50 a carton
returns: breakages within 3 days
from: 2026-09-01
until: 2027-03-31
levels:
  shop: {off_retail: 50 %}
rounding: to 5 cents
"""
BUYERS: Final = """\
quay-stores:
  name: Quay Stores
  level: shop
  country: GB
  currency: GBP
  contact: Ada Fenn, orders@quay-stores.example
lamp-room:
  name: The Lamp Room
  country: GB
  currency: GBP
"""
WEB: Final = "https://ferry-lane.example"


def sell_to_the_trade(content: Path) -> None:
    """Add terms, buyers and a safe address to the small shop that a maker starts from."""
    (content / "trade").mkdir()
    (content / "trade" / "terms.yaml").write_text(TERMS, encoding="utf-8")
    (content / "trade" / "buyers.yaml").write_text(BUYERS, encoding="utf-8")
    maker = content / "maker.yaml"
    lines = maker.read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if not line.startswith("web:")]
    maker.write_text("\n".join((*kept, f"web: {WEB}", "")), encoding="utf-8")
