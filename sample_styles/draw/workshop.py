"""What the invented workshop has on its shelves. Every figure is an example."""

from __future__ import annotations

from decimal import Decimal

from app.hold.materials import strips_of
from app.style.model import (
    INVENTED_READING,
    ClothData,
    PressSetting,
    SheetConstants,
    StretchReading,
    UpperMaterial,
)
from geometry.stretch.fit import fit_strips

EXAMPLE = "example value, ask your supplier"


def strips(
    angles_and_readings: dict[float, tuple[float, ...]], load_n: float, gauge_mm: float = 100.0
) -> tuple[StretchReading, ...]:
    """Strip tests 25 mm wide: extension in mm at one load, several strips an angle."""
    return tuple(
        StretchReading(
            angle_deg=angle,
            width_mm=25.0,
            gauge_mm=gauge_mm,
            loads_n=(load_n,),
            extensions_mm=(extension,),
            note=INVENTED_READING,
        )
        for angle, readings in angles_and_readings.items()
        for extension in readings
    )


def fitted(readings: tuple[StretchReading, ...]) -> SheetConstants:
    """The constants that fit strips, for a card."""
    fit = fit_strips(strips_of(readings), 1.0)
    return SheetConstants(
        e1_n_per_mm=round(fit.sheet.e1_n_per_mm, 2),
        e2_n_per_mm=round(fit.sheet.e2_n_per_mm, 2),
        g12_n_per_mm=round(fit.sheet.g12_n_per_mm, 3),
        nu12=round(fit.sheet.nu12, 2),
        source="fitted to the strips of this card at 1 N/mm; nu12 assumed",
    )


# 25 N on 25 mm = 1 N/mm, read with a calliper to 0.1 mm; angles from the roll's length
TWILL_STRIPS = strips(
    {
        0.0: (2.5, 2.4),
        30.0: (17.0, 17.6),
        60.0: (19.4, 18.9),
        90.0: (6.2, 6.4),
        120.0: (19.0, 19.5),
        150.0: (17.4, 17.0),
    },
    25.0,
)
PLAIN_STRIPS = strips({0.0: (3.5, 3.6, 3.4), 45.0: (17.7, 18.3, 18.1), 90.0: (4.9, 5.1, 5.0)}, 25.0)
# angles from the pull axis of the uppers
NAPPA_STRIPS = strips({0.0: (8.2, 8.5, 8.3), 45.0: (10.2, 10.5, 10.4), 90.0: (12.4, 12.7, 12.4)}, 25.0)

TWILL = ClothData(
    id="twill-150",
    name="Cotton twill 150, EVA dots",
    fibre="cotton",
    weave="twill 2/1",
    mass_g_per_m2=150.0,
    thickness_mm=0.38,
    glue="hot-melt EVA, dots",
    coated_side="back",
    width_mm=1400.0,
    usable_width_mm=1360.0,
    roll_length_m=50.0,
    tight_direction_deg=0.0,
    how_known="example",
    price_per_m=Decimal("3.40"),
    press=PressSetting(temperature_c=110.0, seconds=10.0, pressure_mpa=0.2, source=EXAMPLE),
    tests=TWILL_STRIPS,
    sheet=fitted(TWILL_STRIPS),
    note="Invented for the sample styles: width, price, press setting and readings are examples.",
)
PLAIN = ClothData(
    id="plain-110",
    name="Polyester plain 110, polyamide web",
    fibre="polyester",
    weave="plain",
    mass_g_per_m2=110.0,
    thickness_mm=0.26,
    glue="hot-melt polyamide, web",
    coated_side="back",
    width_mm=1500.0,
    usable_width_mm=1460.0,
    roll_length_m=100.0,
    tight_direction_deg=0.0,
    how_known="example",
    price_per_m=Decimal("2.20"),
    press=PressSetting(temperature_c=125.0, seconds=12.0, pressure_mpa=0.2, source=EXAMPLE),
    tests=PLAIN_STRIPS,
    sheet=fitted(PLAIN_STRIPS),
    note="Invented for the sample styles: width, price, press setting and readings are examples.",
)
NAPPA = UpperMaterial(
    name="soft nappa 1.0 mm (invented readings)",
    thickness_mm=1.0,
    tests=NAPPA_STRIPS,
    sheet=fitted(NAPPA_STRIPS),
)
CALF = UpperMaterial(
    name="box calf 1.3 mm (example constants)",
    thickness_mm=1.3,
    sheet=SheetConstants(e1_n_per_mm=21.7, e2_n_per_mm=14.9, g12_n_per_mm=7.0, nu12=0.35, source=EXAMPLE),
)
