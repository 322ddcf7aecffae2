"""How the wax of a tested candle went down, piece by piece, for the chart beside its hours."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.facts.burnt import burn
from generator.facts.made import make
from generator.model.recorded import Recorded
from generator.rules.pieces import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """One piece: wax left in grams after so many hours, at the net weight before the first."""

    name: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnTrack:
    """Every piece that counts, the fitted rate, what stays in the vessel, and the hours claimed."""

    net_g: float
    heel_g: float
    rate_g_per_h: float
    claim_h: int
    tracks: tuple[Track, ...]


def burn_track(recorded: Recorded) -> BurnTrack | None:
    """None without a test that carries a rate and hours."""
    made, _ = make(recorded) if recorded.tests and recorded.build.wicks else (None, ())
    burnt, _ = burn(recorded, made) if made else (None, ())
    if made is None or burnt is None or burnt.rate_g_per_h is None or burnt.hours.claim_h is None:
        return None
    net_g = made.net.net_g
    return BurnTrack(
        net_g=net_g,
        heel_g=net_g - burnt.hours.burnable_g,
        rate_g_per_h=burnt.rate_g_per_h,
        claim_h=burnt.hours.claim_h,
        tracks=tuple(Track(name=one.name, points=tuple(_points(one, net_g))) for one in burnt.hours.pieces),
    )


def _points(piece: Piece, net_g: float) -> Iterator[tuple[float, float]]:
    hours, left_g = 0.0, net_g
    yield hours, left_g
    for each in piece.burns:
        hours += each.hours
        left_g -= each.loss_g
        yield hours, left_g
