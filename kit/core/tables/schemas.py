"""What each table holds: columns, units, meanings and allowed ranges, for the loader and the docs alike."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from types import MappingProxyType

#: How surely a figure is known, and the words in which a sheet says so.
CONFIDENCE: Mapping[str, str] = MappingProxyType(
    {
        "read": "read at the source named",
        "memory": "from memory, not seen",
        "practice": "common practice, no source",
        "demo": "invented demo value",
        "stated": "stated by the job",
    }
)

#: The confidence of a row that a job adds without saying one.
STATED = "stated"


@dataclass(frozen=True)
class Derived:
    """A figure that follows from another column of the same row: `factor` [`unit`] times `column`."""

    column: str
    factor: float
    unit: str
    because: str


@dataclass(frozen=True)
class Column:
    """One figure of a table: its unit, the closed range `low` to `high` it may take in it, its meaning.

    `derived` fills a blank cell from another column; `source_column` is where its citation stands.
    """

    name: str
    unit: str
    low: float
    high: float
    meaning: str
    symbol: str = ""
    derived: Derived | None = None
    source_column: str = "source"


@dataclass(frozen=True)
class Schema:
    """One table: what it is about and its columns of figures."""

    name: str
    about: str
    columns: tuple[Column, ...]

    @property
    def column(self) -> Mapping[str, Column]:
        """The columns by name."""
        return {column.name: column for column in self.columns}

    @property
    def text_columns(self) -> tuple[str, ...]:
        """The columns that hold words: name, synonyms, sources, confidence and exceptions from it, note."""
        sources = dict.fromkeys(("source", *(column.source_column for column in self.columns)))
        return ("id", "also", *sources, "confidence", *EXCEPTIONS.values(), "note")


#: By confidence, the text column that lists, parted by semicolons, figures known otherwise than the row.
EXCEPTIONS: Mapping[str, str] = MappingProxyType({word: f"{word}_columns" for word in CONFIDENCE if word != STATED})


def _ratio(name: str, symbol: str, meaning: str) -> Column:
    return Column(name, "1", 0.001, 1, f"{meaning}, over the modulus along the grain", symbol, None, "ratios_source")


def _movement(name: str, symbol: str, meaning: str) -> Column:
    return Column(
        name,
        "1/%",
        0.0002,
        0.01,
        f"{meaning} per 1 % change of moisture content",
        symbol,
        None,
        "movement_source",
    )


_WOODS = Schema(
    "woods",
    "Clear straight-grained wood at 12 % moisture content.",
    (
        Column("specific_gravity", "1", 0.05, 1.4, "ovendry mass over volume at 12 % moisture, water 1"),
        Column("modulus_bending", "GPa", 1, 40, "printed bending modulus, center load on 14 depths, with shear"),
        Column(
            "modulus_along",
            "GPa",
            1,
            40,
            "elastic modulus along the grain, without shear",
            "E_L",
            Derived("modulus_bending", 1.10, "1", "raised by 10 % to take shear out (Table 5-3, footnote c)"),
        ),
        Column(
            "density",
            "kg/m^3",
            50,
            1600,
            "mass over volume, both at 12 % moisture",
            "rho",
            Derived("specific_gravity", 1120, "kg/m^3", "raised by the 12 % of water, with water at 1000 kg/m³"),
        ),
        Column("rupture", "MPa", 5, 400, "bending strength (modulus of rupture)"),
        Column("compression_across", "MPa", 0.5, 40, "pressure across the grain at its proportional limit"),
        Column("shear_along", "MPa", 1, 40, "shear strength along the grain"),
        _ratio("tangential_ratio", "E_T/E_L", "modulus tangential to the growth rings"),
        _ratio("radial_ratio", "E_R/E_L", "modulus radial to the growth rings"),
        _ratio("shear_lr_ratio", "G_LR/E_L", "shear modulus in the longitudinal-radial plane"),
        _ratio("shear_lt_ratio", "G_LT/E_L", "shear modulus in the longitudinal-tangential plane"),
        _movement("radial_coefficient", "C_R", "relative change of size along the radius of the rings"),
        _movement("tangential_coefficient", "C_T", "relative change of size along the growth rings"),
    ),
)

_SHEET_GOODS = Schema(
    "sheet_goods",
    "Wood-based panels.",
    (
        Column(
            "modulus_along",
            "GPa",
            0.5,
            40,
            "bending modulus along the face grain, or in any direction if none",
        ),
        Column("modulus_across", "GPa", 0.1, 40, "bending modulus across the face grain"),
        Column("rupture", "MPa", 2, 400, "bending strength (modulus of rupture)"),
        Column("specific_gravity", "1", 0.05, 1.6, "ovendry mass over volume in use, water 1"),
        Column(
            "density",
            "kg/m^3",
            50,
            1600,
            "mass over volume in use",
            "rho",
            Derived("specific_gravity", 1000, "kg/m^3", "the panel's moisture, some 7 %, is not in it"),
        ),
    ),
)

_METALS = Schema(
    "metals",
    "Metals of the shop at room temperature.",
    (
        Column("modulus", "GPa", 10, 450, "elastic modulus", "E"),
        Column("poisson", "1", 0, 0.5, "Poisson's ratio", "nu"),
        Column("density", "kg/m^3", 1000, 25000, "mass over volume", "rho"),
        Column("expansion", "1/K", 0, 5e-5, "thermal expansion", "alpha"),
        Column("yield_strength", "MPa", 5, 3000, "stress at 0.2 % of lasting strain"),
        Column("elongation", "%", 0.5, 100, "elongation at fracture, gauge length 50 mm (2 in)"),
    ),
)

_BEND_FACTORS = Schema(
    "bend_factors",
    "Where the neutral axis lies in a bend in sheet metal.",
    (
        Column("allowance_factor", "1", 0.3, 1, "thickness factor of a 90 degree bend's length, as printed"),
        Column(
            "neutral_axis_factor",
            "1",
            0.2,
            0.6,
            "neutral axis from the inside face, per thickness",
            "K",
            Derived("allowance_factor", 2 / pi, "1", "the printed factor divided by pi/2"),
        ),
    ),
)

_CLOTHS = Schema(
    "cloths",
    "Cloth for skins, chutes and covers.",
    (
        Column("mass_per_area", "g/m^2", 10, 3000, "mass over area"),
        Column("thickness", "mm", 0.02, 10, "thickness under light pressure", "t"),
        Column("tolerated_strain", "%", 0.05, 20, "stretch or easing of an edge that stays without puckers"),
    ),
)

_NEEDLES = Schema(
    "needles",
    "Needles of sewing machines, each with the thread and the cloth that it is usual for.",
    (
        Column("blade", "mm", 0.4, 4, "thickness of the blade, a hundredth of the number NM"),
        Column("thread_size", "g/m", 0.005, 1, "mass over length of the thread; tex is g over 1000 m"),
        Column("cloth_most", "g/m^2", 20, 3000, "heaviest cloth, two plies of it"),
        Column("stitch", "mm", 1, 8, "usual length of a stitch"),
    ),
)

_PAPERS = Schema(
    "papers",
    "Paper sizes, upright.",
    (
        Column("width", "mm", 50, 2000, "shorter side"),
        Column("height", "mm", 50, 3000, "longer side"),
    ),
)

_CARDS = Schema(
    "cards",
    "Paper, card and board for patterns.",
    (
        Column("thickness", "mm", 0.02, 20, "thickness of one sheet", "t"),
        Column("mass_per_area", "g/m^2", 10, 5000, "mass over area"),
    ),
)

_STOCK_THICKNESSES = Schema(
    "stock_thicknesses",
    "Thicknesses in which boards and panels are sold.",
    (Column("thickness", "mm", 1, 200, "thickness as sold, planed or sanded", "t"),),
)

_DRILLS = Schema(
    "drills",
    "Twist drills as they are sold.",
    (Column("diameter", "mm", 0.5, 80, "diameter of the drill", "d"),),
)

_TRACKS = Schema(
    "tracks",
    "Tracks, miter slots and T-slots in which keys and bolts run.",
    (
        Column("width", "mm", 2, 100, "width of the groove or of the T-slot's opening"),
        Column("depth", "mm", 1, 100, "depth of the groove or of the whole T-slot"),
        Column("channel_width", "mm", 3, 200, "width of the T-slot's channel"),
        Column("channel_height", "mm", 1, 100, "height of the T-slot's channel"),
    ),
)

_FASTENERS = Schema(
    "fasteners",
    "Screw threads of bolts and nuts.",
    (
        Column("diameter", "mm", 1, 100, "nominal diameter", "d"),
        Column("pitch", "mm", 0.2, 10, "thread pitch", "p"),
        Column("pitch_diameter", "mm", 0.5, 100, "basic pitch diameter", "d_2"),
        Column("stress_area", "mm^2", 0.3, 7000, "tensile stress area", "A_s"),
        Column("across_flats", "mm", 1, 200, "hexagon nut across flats", "s", None, "nut_source"),
        Column("nut_height", "mm", 0.5, 100, "height of a hexagon nut, at most", "m", None, "nut_source"),
        Column("clearance_hole", "mm", 1, 120, "clearance hole, medium (normal) fit"),
    ),
)

_FRICTION = Schema(
    "friction",
    "Coefficients of friction between two faces.",
    (
        Column("static", "1", 0, 2, "coefficient at the start of sliding", "mu_s"),
        Column("kinetic", "1", 0, 2, "coefficient while sliding", "mu_k"),
        Column("low", "1", 0, 2, "low end of what is printed for the start of sliding", "mu_1", None, "low_source"),
    ),
)

_DUSTS = Schema(
    "dusts",
    "Dust and chips, by what carries them.",
    (Column("transport", "m/s", 5, 40, "speed of the air in a duct that keeps it moving", "v_t"),),
)

_WOOD_SCREWS = Schema(
    "wood_screws",
    "Wood screws with a rolled thread.",
    (
        Column("diameter", "mm", 2, 15, "diameter over the thread", "D"),
        Column("root", "mm", 1, 12, "diameter at the root of the thread", "D_r"),
        Column("head", "mm", 3, 30, "diameter of the head", "D_H"),
        Column("bend_yield", "MPa", 200, 1500, "stress at which it yields in bending", "F_yb"),
    ),
)

_HAND_TORQUES = Schema(
    "hand_torques",
    "Greatest torque of one hand, as measured in studies.",
    (
        Column("men", "N*m", 0.1, 40, "mean of the men measured"),
        Column("women", "N*m", 0.1, 40, "mean of the women measured"),
    ),
)

_TAPE_CLASSES = Schema(
    "tape_classes",
    "Accuracy classes of rules and tapes: maximum permissible error, plus or minus.",
    (
        Column("base_error", "mm", 0.01, 5, "part of the error that does not grow with length", "a"),
        Column("growth", "mm/m", 0.01, 5, "growth of the error with length, whole meters", "b"),
        Column("surface_error", "mm", 0.01, 5, "more where the length begins at an end surface", "c"),
    ),
)

_SMALL_SAMPLES = Schema(
    "small_samples",
    "Factors for a few measured parts at 95 percent, two-sided.",
    (
        Column("parts", "1", 2, 1000, "number of parts measured", "n"),
        Column("t95", "1", 1.9, 13, "Student's factor for one degree of freedom less", "t", None, "t_source"),
        Column("least95", "1", 0.4, 1, "least true standard deviation over the measured one"),
        Column("most95", "1", 1, 32, "largest true standard deviation over the measured one"),
    ),
)


def _grade(number: int) -> Column:
    source = "it12_source" if number == 12 else "source"
    return Column(f"IT{number}", "µm", 1, 2000, f"tolerance of grade IT{number}", f"IT{number}", None, source)


def _shaft(letter: str) -> Column:
    meaning = f"how far the upper limit of a shaft {letter} lies below the nominal size"
    return Column(f"shaft_{letter}", "µm", 0, 2000, meaning, "", None, "deviations_source")


_ISO286 = Schema(
    "iso286",
    "Standard tolerance grades and shaft deviations by ranges of nominal size.",
    (
        Column("over", "mm", 0, 3000, "the range begins above this nominal size"),
        Column("up_to", "mm", 1, 3150, "the range ends with this nominal size"),
        *(_grade(number) for number in range(5, 13)),
        *(_shaft(letter) for letter in "defg"),
    ),
)

#: Every table by name.
SCHEMAS: Mapping[str, Schema] = MappingProxyType(
    {
        schema.name: schema
        for schema in (
            _WOODS,
            _SHEET_GOODS,
            _METALS,
            _BEND_FACTORS,
            _CLOTHS,
            _NEEDLES,
            _PAPERS,
            _CARDS,
            _STOCK_THICKNESSES,
            _DRILLS,
            _TRACKS,
            _FASTENERS,
            _FRICTION,
            _DUSTS,
            _WOOD_SCREWS,
            _HAND_TORQUES,
            _TAPE_CLASSES,
            _SMALL_SAMPLES,
            _ISO286,
        )
    }
)
