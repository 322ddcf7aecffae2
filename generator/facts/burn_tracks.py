"""How the wax of a tested candle went down, piece by piece, for the chart beside its hours."""

from collections.abc import Iterator

from generator.facts.burn_result import BurnResult
from generator.facts.facts import BurnTrack, Track
from generator.rules.burning.pieces import Piece


def burn_track(burn: BurnResult, net_g: float) -> BurnTrack | None:
    """What a candle of that net weight lost; None without a test that carries a rate and hours."""
    if burn.rate_g_per_h is None or burn.hours.claim_h is None:
        return None
    return BurnTrack(
        net_g=net_g,
        heel_g=net_g - burn.hours.burnable_g,
        rate_g_per_h=burn.rate_g_per_h,
        claim_h=burn.hours.claim_h,
        tracks=tuple(Track(name=one.name, points=tuple(_points(one, net_g))) for one in burn.hours.pieces),
    )


def _points(piece: Piece, net_g: float) -> Iterator[tuple[float, float]]:
    hours, left_g = 0.0, net_g
    yield hours, left_g
    for each in piece.burns:
        hours += each.hours
        left_g -= each.loss_g
        yield hours, left_g
