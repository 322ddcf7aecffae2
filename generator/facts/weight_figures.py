"""How the densities and the net weight of a candle were worked out, line by line."""

from collections.abc import Iterator, Mapping
from math import floor

from generator.facts.facts import Figure, Input
from generator.facts.made import Made
from generator.facts.volume_terms import Term, volume_term
from generator.model.candle import Fill, Level
from generator.model.quantities import GRAMS_PER_OUNCE, as_written
from generator.model.recorded import Recorded
from generator.rules.labels.net_quantity import NetQuantity
from generator.rules.wax.blend import cold_g_per_ml, hot_g_per_ml
from generator.rules.wax.geometry import height_mm, total_ml
from generator.rules.wax.weighings import net_g


def weight_figures(recorded: Recorded, made: Made, quantity: NetQuantity) -> Iterator[Figure]:
    """From the formula to the declared weight."""
    yield _density(
        "density_set_g_per_ml",
        "density_set",
        made,
        cold_g_per_ml(made.build.formula),
        made.density_set_g_per_ml,
    )
    yield _density(
        "density_molten_g_per_ml",
        "density_molten",
        made,
        hot_g_per_ml(made.build.formula, made.pour_c),
        made.density_molten_g_per_ml,
    )
    yield from _loads(made)
    yield from volume_figures(recorded, made)
    yield _net_weight(recorded, made)
    yield from _proven(recorded, made, quantity)
    yield from _declared(quantity)


def volume_figures(recorded: Recorded, made: Made) -> Iterator[Figure]:
    """From the fill line to the volume of the set wax."""
    shape, fill = recorded.build.shape, recorded.build.fill or Fill()
    if shape.brimful_ml is not None:
        whole = volume_term(shape.inside, "inside_height_mm", height_mm(shape.inside))
        yield Figure(
            name="shape_brimful_ml",
            label="shape_brimful",
            value=total_ml(shape.inside),
            unit="ml",
            formula=whole.formula,
            inputs=whole.inputs,
            source="shape",
        )
    if fill.weight_g is not None:
        inputs = (_recorded("poured_g", fill.weight_g, "g", "fill", "weight"), _set_density(made))
        yield _fill_volume(made, Term(formula="poured_g / density_set_g_per_ml", inputs=inputs))
        yield from _volume_at_level(recorded, made)
        return
    line = _line_term(recorded, fill)
    if fill.level is not Level.POURED:
        yield _fill_volume(made, line)
        return
    hot = (
        Input(
            name="density_molten_g_per_ml", value=made.density_molten_g_per_ml, unit="g/ml", shown="private"
        ),
        _set_density(made),
    )
    shrunk = f"({line.formula}) * density_molten_g_per_ml / density_set_g_per_ml"
    yield _fill_volume(made, Term(formula=shrunk, inputs=(*line.inputs, *hot)))
    yield from _volume_at_level(recorded, made)


def wax_volume_term(recorded: Recorded, level_name: str, level_mm: float) -> Term:
    """The wax up to a level: scaled to the measured brimful, less what wick and holder take up."""
    shape = recorded.build.shape
    term = volume_term(shape.inside, level_name, level_mm)
    formula, inputs = term.formula, term.inputs
    if shape.brimful_ml is not None:
        formula = f"brimful_ml / shape_brimful_ml * ({formula})"
        inputs = (
            _recorded("brimful_ml", shape.brimful_ml, "ml", "vessel", "brimful"),
            Input(name="shape_brimful_ml", value=total_ml(shape.inside), unit="ml"),
            *inputs,
        )
    if shape.displaced_ml:
        formula = f"{formula} - displaced_ml"
        inputs = (*inputs, _recorded("displaced_ml", shape.displaced_ml, "ml", "vessel", "displaced"))
    return Term(formula=formula, inputs=inputs)


def _line_term(recorded: Recorded, fill: Fill) -> Term:
    if fill.volume_ml is not None:
        return Term(
            formula="filled_ml", inputs=(_recorded("filled_ml", fill.volume_ml, "ml", "fill", "volume"),)
        )
    if fill.to_mm is not None:
        return wax_volume_term(recorded, "fill_to_mm", fill.to_mm)
    inside_mm = height_mm(recorded.build.shape.inside)
    below_mm = fill.below_rim_mm or 0.0
    return wax_volume_term(recorded, "line_mm", inside_mm - below_mm)


def _volume_at_level(recorded: Recorded, made: Made) -> Iterator[Figure]:
    """A level that was found from a volume is shown by the volume it holds."""
    term = wax_volume_term(recorded, "level_set_mm", made.finish.level_set_mm)
    yield Figure(
        name="volume_at_level_ml",
        label="volume_at_level",
        value=made.finish.volume_ml,
        unit="ml",
        formula=term.formula,
        inputs=term.inputs,
        source="shape",
    )


def _fill_volume(made: Made, term: Term) -> Figure:
    return Figure(
        name="fill_volume_ml",
        label="fill_volume",
        value=made.finish.volume_ml,
        unit="ml",
        formula=term.formula,
        inputs=term.inputs,
        source="shape",
    )


def _set_density(made: Made) -> Input:
    return Input(name="density_set_g_per_ml", value=made.density_set_g_per_ml, unit="g/ml", shown="private")


def _density(name: str, label: str, made: Made, densities: Mapping[str, float], value: float) -> Figure:
    inputs: list[Input] = []
    for part in made.blend.parts:
        own = _identifier(part.id)
        inputs.append(
            Input(
                name=f"{own}_g",
                value=float(part.grams),
                unit="g",
                origin=("formula", part.id),
                shown="private",
            )
        )
        inputs.append(Input(name=f"{own}_g_per_ml", value=densities[part.id], unit="g/ml", shown="private"))
    ids = [_identifier(part.id) for part in made.blend.parts]
    masses = " + ".join(f"{own}_g" for own in ids)
    volumes = " + ".join(f"{own}_g / {own}_g_per_ml" for own in ids)
    return Figure(
        name=name,
        label=label,
        value=value,
        unit="g/ml",
        formula=f"({masses}) / ({volumes})",
        inputs=tuple(inputs),
        source="added",
        shown="private",
    )


def _loads(made: Made) -> Iterator[Figure]:
    fragrance = Input(name="fragrance_g", value=float(made.blend.fragrance_g), unit="g", shown="private")
    for basis, whole_g, value in (
        ("wax", made.blend.wax_g, made.blend.fragrance_of_wax_percent),
        ("total", made.blend.total_g, made.blend.fragrance_of_total_percent),
    ):
        whole = Input(name=f"{basis}_g", value=float(whole_g), unit="g", shown="private")
        yield Figure(
            name=f"fragrance_of_{basis}_percent",
            label=f"fragrance_of_{basis}",
            value=float(value),
            unit="%",
            formula=f"100 * fragrance_g / {basis}_g",
            inputs=(fragrance, whole),
            source="share",
            shown="private",
        )


def _net_weight(recorded: Recorded, made: Made) -> Figure:
    net = made.net
    if net.basis == "weighed":
        names = [f"weighed_{number + 1}_g" for number in range(len(recorded.weighed))]
        inputs = [
            Input(
                name=name, value=float(net_g(weighing)), unit="g", origin=("weighed", number), shown="private"
            )
            for number, (name, weighing) in enumerate(zip(names, recorded.weighed, strict=True))
        ]
        formula = f"({' + '.join(names)}) / {len(names)}"
    else:
        volume = Input(name="fill_volume_ml", value=made.finish.volume_ml, unit="ml")
        inputs, formula = [volume, _set_density(made)], "fill_volume_ml * density_set_g_per_ml"
    return Figure(
        name="net_weight_g",
        label=f"net_weight_{net.basis.replace(' ', '_')}",
        value=net.net_g,
        unit="g",
        formula=formula,
        inputs=tuple(inputs),
        source="trust",
    )


def _proven(recorded: Recorded, made: Made, quantity: NetQuantity) -> Iterator[Figure]:
    """The weight that may be declared, where it is less than the net weight: what weighing may be off is taken away."""
    net = made.net
    if net.proven_g is None or quantity.net_g != net.proven_g or net.proven_g == net.net_g:
        return
    if net.weighings is None or net.weighings.carried_g is None:
        inputs: tuple[Input, ...] = (_recorded("scale_step_g", recorded.scale_step_g, "g", "scale_step"),)
        formula, source = "net_weight_g - scale_step_g", "scale_step"
    else:
        inputs = (
            Input(name="weighed_sd_g", value=net.weighings.sd_g or 0.0, unit="g", shown="private"),
            Input(name="weighed_n", value=net.weighings.n, unit=""),
        )
        formula, source = "net_weight_g - 2 * weighed_sd_g / sqrt(weighed_n)", "margin"
    yield Figure(
        name="weight_to_declare_g",
        label="weight_to_declare",
        value=net.proven_g,
        unit="g",
        formula=formula,
        inputs=(Input(name="net_weight_g", value=net.net_g, unit="g"), *inputs),
        source=source,
    )


def _declared(quantity: NetQuantity) -> Iterator[Figure]:
    spoken = "declared" if quantity.status == "proven" else "rounded"
    grams = Input(name="weight_to_declare_g", value=quantity.net_g, unit="g")
    if quantity.net_g < 1000:
        yield Figure(
            name="declared_g",
            label=f"{spoken}_grams",
            value=float(floor(as_written(quantity.net_g))),
            unit="g",
            formula="floor(weight_to_declare_g)",
            inputs=(grams,),
            source="rounded_down",
        )
    if quantity.ounces is None:
        ounces = floor(as_written(quantity.net_g) / as_written(GRAMS_PER_OUNCE) * 10) / 10
        formula = f"floor(weight_to_declare_g / {GRAMS_PER_OUNCE} * 10) / 10"
        yield Figure(
            name="declared_oz",
            label=f"{spoken}_ounces",
            value=ounces,
            unit="oz",
            formula=formula,
            inputs=(grams,),
            source="rounded_down",
        )


def _recorded(name: str, value: float, unit: str, *origin: str) -> Input:
    return Input(name=name, value=value, unit=unit, origin=origin)


def _identifier(id_: str) -> str:
    """An id as a name in a formula, which may not begin with a digit."""
    name = id_.replace("-", "_")
    return f"n{name}" if name[0].isdigit() else name
