"""The tables of a collection, as SQLAlchemy sees them.

The migrations make them; this module only describes how they stand after the last one.
It knows no use case and no words for people. Days are ``Date``, instants are whole
seconds UTC, enumerations are their text, sets are texts joined by commas. Nothing
cascades: every row that goes is taken by name, so that the journal can bring it back.
Nothing is mapped. Annotations are no texts here: columns are made of them.
"""

from datetime import date
from typing import Any, ClassVar, get_args

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    ColumnClause,
    Date,
    Float,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.schema import SchemaItem
from typing_extensions import override

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


_WHOLE = Integer().with_variant(BigInteger(), "postgresql")
_TYPES: dict[Any, Any] = {
    bool: Boolean,
    bytes: LargeBinary,
    date: Date,
    float: Float(),
    int: _WHOLE,
    str: Text(),
}


def having(*parts: SchemaItem, **said: Any) -> Any:
    """Give what a column has beside its name and type."""
    return parts, said


class Base:
    """A table, its columns by name; stands for its table in a statement.

    All share a whole number as key. What may be empty is said by ``| None``.
    """

    metadata: ClassVar[MetaData] = MetaData(naming_convention=NAMING)
    __tablename__: ClassVar[str]
    __table_args__: ClassVar[tuple[SchemaItem, ...]] = ()
    __table__: ClassVar[Table]

    id: ColumnClause[int]

    @override
    def __init_subclass__(cls) -> None:
        columns = {"id": Column("id", _WHOLE, primary_key=True)}
        for name, said in cls.__annotations__.items():
            (of,) = get_args(said)
            kind, *empty = get_args(of) or (of,)
            parts, more = cls.__dict__.get(name, ((), {}))
            columns[name] = Column(
                name, _TYPES[kind], *parts, nullable=bool(empty), **more
            )
        parts = (*columns.values(), *cls.__table_args__)
        cls.__table__ = Table(cls.__tablename__, cls.metadata, *parts)
        for name, column in columns.items():
            setattr(cls, name, column)

    @classmethod
    def __clause_element__(cls) -> Table:
        return cls.__table__


class PlaceRow(Base):
    """A place where plants stand."""

    __tablename__ = "place"
    __table_args__ = (UniqueConstraint("name"),)

    name: ColumnClause[str]
    kind: ColumnClause[str]
    controlled: ColumnClause[bool] = having(default=False)
    outdoors: ColumnClause[bool] = having(default=False)
    lamps_hours: ColumnClause[float | None]
    lamps_ppfd: ColumnClause[float | None]
    note: ColumnClause[str] = having(default="")
    facing: ColumnClause[str | None]
    glass: ColumnClause[str | None]
    shaded: ColumnClause[float | None]
    position: ColumnClause[int | None]


class BenchRow(Base):
    """A bench, shelf or tray of a place; ``position`` is its turn on the round.

    ``at_glass`` benches stand at the pane, where nights are coldest and noons hottest.
    """

    __tablename__ = "bench"
    __table_args__ = (UniqueConstraint("place_id", "name"),)

    place_id: ColumnClause[int] = having(ForeignKey("place.id"))
    name: ColumnClause[str]
    position: ColumnClause[int]
    at_glass: ColumnClause[bool] = having(default=False)
    note: ColumnClause[str] = having(default="")


class PlantRow(Base):
    """A plant. ``binned_on`` is set while it lies in the bin; its tag is then free.

    ``status`` is growing, given-away, sold or lost; what left keeps its tag and its
    records. ``bench`` is the number along its bench, or along the place. ``held_as`` is
    set where several plants share the tag. ``parent_id`` is what it was taken from.
    """

    __tablename__ = "plant"
    __table_args__ = (
        Index(
            "uq_plant_tag", "tag", unique=True, sqlite_where=text("binned_on IS NULL")
        ),
        Index("ix_plant_place_id", "place_id"),
        Index("ix_plant_parent_id", "parent_id"),
    )

    tag: ColumnClause[str]
    name: ColumnClause[str]
    kind: ColumnClause[str]
    place_id: ColumnClause[int | None] = having(ForeignKey("place.id"))
    bench: ColumnClause[int | None]
    hybrid: ColumnClause[bool] = having(default=False)
    pot_volume_l: ColumnClause[float | None]
    volume_l: ColumnClause[float | None]
    medium: ColumnClause[str | None]
    mounted: ColumnClause[bool] = having(default=False)
    size: ColumnClause[str | None]
    under_cover: ColumnClause[bool] = having(default=False)
    repotted_on: ColumnClause[date | None]
    slow_release_until: ColumnClause[date | None]
    full_strength_ppm_n: ColumnClause[float | None]
    feed_ceiling_ppm_n: ColumnClause[float | None]
    feed_interval_days: ColumnClause[int | None]
    ignores_rest: ColumnClause[bool] = having(default=False)
    overrule_verdict: ColumnClause[str | None]
    overrule_reason: ColumnClause[str | None]
    overrule_until: ColumnClause[date | None]
    overrule_water: ColumnClause[str | None]
    overrule_since: ColumnClause[date | None]
    acquired_on: ColumnClause[date | None]
    source: ColumnClause[str] = having(default="")
    note: ColumnClause[str] = having(default="")
    binned_on: ColumnClause[date | None]
    status: ColumnClause[str] = having(
        default="growing", server_default=text("'growing'")
    )
    left_on: ColumnClause[date | None]
    left_why: ColumnClause[str] = having(default="", server_default=text("''"))
    bench_id: ColumnClause[int | None] = having(ForeignKey("bench.id"))
    parent_id: ColumnClause[int | None] = having(ForeignKey("plant.id"))
    parent_how: ColumnClause[str | None]
    parentage: ColumnClause[str] = having(default="", server_default=text("''"))
    papers: ColumnClause[str] = having(default="", server_default=text("''"))
    held_as: ColumnClause[str | None]
    how_many: ColumnClause[int | None]
    quarantine_until: ColumnClause[date | None]


class LookRow(Base):
    """A look. ``NULL`` is not recorded; an empty ``health`` is looked, no trouble."""

    __tablename__ = "look"
    __table_args__ = (Index("ix_look_plant_id_day", "plant_id", "day"),)

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    day: ColumnClause[date]
    emerging: ColumnClause[int | None]
    extending: ColumnClause[int | None]
    maturing: ColumnClause[int | None]
    matured: ColumnClause[int | None]
    stalled: ColumnClause[int | None]
    root_tips: ColumnClause[str | None]
    longest_new_root_mm: ColumnClause[float | None]
    lead_length_mm: ColumnClause[float | None]
    new_leaf: ColumnClause[str | None]
    flowering: ColumnClause[str | None]
    leaves: ColumnClause[str | None]
    bulbs: ColumnClause[str | None]
    pot: ColumnClause[str | None]
    health: ColumnClause[str | None]
    runoff_ec_ms_per_cm: ColumnClause[float | None]
    note: ColumnClause[str] = having(default="")
    keikis: ColumnClause[int | None]
    keiki_root_mm: ColumnClause[float | None]
    pods: ColumnClause[int | None]
    spike_mm: ColumnClause[float | None]


class CareRow(Base):
    """A piece of care: what was really given or done.

    ``product`` is what a treatment was done with, as its label has it; ``medium`` and
    ``pot_volume_l`` are what a plant was repotted into; ``from_place`` and ``to_place``
    are the names of a move, as they were called then.
    """

    __tablename__ = "care"
    __table_args__ = (
        Index("ix_care_plant_id_day", "plant_id", "day"),
        Index("ix_care_plant_id_what_day", "plant_id", "what", "day"),
        Index("ix_care_day", "day"),
    )

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    day: ColumnClause[date]
    what: ColumnClause[str]
    strength_ppm_n: ColumnClause[float | None]
    volume_l: ColumnClause[float | None]
    ec_ms_per_cm: ColumnClause[float | None]
    note: ColumnClause[str] = having(default="")
    product: ColumnClause[str] = having(default="", server_default=text("''"))
    repeat_on: ColumnClause[date | None]
    rain_mm: ColumnClause[float | None]
    medium: ColumnClause[str | None]
    pot_volume_l: ColumnClause[float | None]
    from_place: ColumnClause[str | None]
    to_place: ColumnClause[str | None]


class PassByRow(Base):
    """A plant passed by on a watering day because it was still damp."""

    __tablename__ = "pass_by"
    __table_args__ = (
        UniqueConstraint("plant_id", "day"),
        Index("ix_pass_by_day", "day"),
    )

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    day: ColumnClause[date]


class PhotoRow(Base):
    """A photo; its file is ``photos/<first two>/<sha256>.<ext>``.

    ``has_location`` tells whether the file says where it was taken; ``NULL`` where
    nobody has looked.
    """

    __tablename__ = "photo"
    __table_args__ = (
        UniqueConstraint("plant_id", "sha256"),
        Index("ix_photo_look_id", "look_id"),
    )

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    look_id: ColumnClause[int | None] = having(ForeignKey("look.id"))
    sha256: ColumnClause[str]
    ext: ColumnClause[str]
    width: ColumnClause[int]
    height: ColumnClause[int]
    taken_on: ColumnClause[date | None]
    file_name: ColumnClause[str] = having(default="")
    note: ColumnClause[str] = having(default="", server_default=text("''"))
    has_location: ColumnClause[bool | None]


class ReadingRow(Base):
    """One day of a place: temperatures in °C, light in mol m-2 d-1, humidity in %."""

    __tablename__ = "reading"
    __table_args__ = (UniqueConstraint("place_id", "day"),)

    place_id: ColumnClause[int] = having(ForeignKey("place.id"))
    day: ColumnClause[date]
    mean_c: ColumnClause[float | None]
    low_c: ColumnClause[float | None]
    high_c: ColumnClause[float | None]
    light_mol_per_m2_d: ColumnClause[float | None]
    humidity_percent: ColumnClause[float | None]


class BloomRow(Base):
    """One flowering of a plant from spike to last faded flower.

    ``size_mm`` is the natural spread of a flower.
    """

    __tablename__ = "bloom"
    __table_args__ = (Index("ix_bloom_plant_id", "plant_id"),)

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    spike_seen_on: ColumnClause[date | None]
    first_open_on: ColumnClause[date | None]
    last_faded_on: ColumnClause[date | None]
    flowers: ColumnClause[int | None]
    note: ColumnClause[str] = having(default="")
    spikes: ColumnClause[int | None]
    size_mm: ColumnClause[float | None]
    award: ColumnClause[str] = having(default="", server_default=text("''"))


class SavedViewRow(Base):
    """A view of the collection by name; ``what`` is its find, columns and order."""

    __tablename__ = "saved_view"
    __table_args__ = (UniqueConstraint("name"),)

    name: ColumnClause[str]
    what: ColumnClause[str]


class JobDoneRow(Base):
    """A dated job that was done, or let go: ``what`` is done or let-go.

    ``job`` and ``due_on`` are the key and the day of the job as the calendar had it.
    """

    __tablename__ = "job_done"
    __table_args__ = (Index("ix_job_done_due_on", "due_on"),)

    plant_id: ColumnClause[int | None] = having(ForeignKey("plant.id"))
    place_id: ColumnClause[int | None] = having(ForeignKey("place.id"))
    job: ColumnClause[str]
    due_on: ColumnClause[date]
    what: ColumnClause[str]
    done_on: ColumnClause[date]
    note: ColumnClause[str] = having(default="")


class ForecastRow(Base):
    """The coldest and the hottest that one day of a place is expected to have, in °C.

    The cold is of the night that begins on the day.
    """

    __tablename__ = "forecast"
    __table_args__ = (UniqueConstraint("place_id", "day"),)

    place_id: ColumnClause[int] = having(ForeignKey("place.id"))
    day: ColumnClause[date]
    low_c: ColumnClause[float | None]
    high_c: ColumnClause[float | None]


class KindCorrectionRow(Base):
    """One field of a kind as the grower has it, apart from the shipped table.

    ``value`` is the cell as ``kinds.csv`` would hold it; ``kind`` is the kind's key.
    """

    __tablename__ = "kind_correction"
    __table_args__ = (UniqueConstraint("kind", "field"),)

    kind: ColumnClause[str]
    field: ColumnClause[str]
    value: ColumnClause[str]
    note: ColumnClause[str] = having(default="")


class PlantCorrectionRow(Base):
    """One field of a kind that holds otherwise for one plant; ``value`` as above."""

    __tablename__ = "plant_correction"
    __table_args__ = (UniqueConstraint("plant_id", "field"),)

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    field: ColumnClause[str]
    value: ColumnClause[str]
    note: ColumnClause[str] = having(default="")


class MarkRow(Base):
    """What a past decision should have been, by the grower's own hindsight.

    ``verdict``, ``rule`` and ``kind`` are what was decided for the plant on the day,
    kept as they were; ``better`` is the verdict that would have been right.
    """

    __tablename__ = "mark"
    __table_args__ = (
        UniqueConstraint("plant_id", "day"),
        Index("ix_mark_rule_kind", "rule", "kind"),
    )

    plant_id: ColumnClause[int] = having(ForeignKey("plant.id"))
    day: ColumnClause[date]
    verdict: ColumnClause[str]
    rule: ColumnClause[str]
    kind: ColumnClause[str]
    better: ColumnClause[str]
    marked_on: ColumnClause[date]
    note: ColumnClause[str] = having(default="")


class TinRow(Base):
    """A tin on the shelf; at most one is in use.

    ``formula`` is of a single salt. ``price`` is paid for ``pack_amount``, which is in
    grams, of a liquid in mL. A tin that went off the shelf keeps its row.
    """

    __tablename__ = "tin"

    name: ColumnClause[str]
    analysis: ColumnClause[str]
    density_g_per_ml: ColumnClause[float | None]
    in_use: ColumnClause[bool] = having(default=False)
    note: ColumnClause[str] = having(default="")
    formula: ColumnClause[str | None]
    ec_per_100_ppm_n_ms_per_cm: ColumnClause[float | None]
    price: ColumnClause[float | None]
    pack_amount: ColumnClause[float | None]
    gone_on: ColumnClause[date | None]


class WaterRow(Base):
    """A kind of water at hand; at most one is in use.

    Alkalinity and hardness as mg/L CaCO3, the rest as the ions of their names. A blend
    has its two waters, the share of the first, and what the share is reckoned from:
    ``aim`` is share, alkalinity or ec.
    """

    __tablename__ = "water"

    kind: ColumnClause[str]
    ec_ms_per_cm: ColumnClause[float | None]
    in_use: ColumnClause[bool] = having(default=False)
    note: ColumnClause[str] = having(default="")
    name: ColumnClause[str | None]
    alkalinity_mg_per_l: ColumnClause[float | None]
    hardness_mg_per_l: ColumnClause[float | None]
    ca_mg_per_l: ColumnClause[float | None]
    mg_mg_per_l: ColumnClause[float | None]
    k_mg_per_l: ColumnClause[float | None]
    na_mg_per_l: ColumnClause[float | None]
    cl_mg_per_l: ColumnClause[float | None]
    so4_mg_per_l: ColumnClause[float | None]
    no3_mg_per_l: ColumnClause[float | None]
    capacity_l: ColumnClause[float | None]
    first_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    second_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    first_share: ColumnClause[float | None]
    aim: ColumnClause[str | None]
    aim_value: ColumnClause[float | None]
    gone_on: ColumnClause[date | None]


class RecipeRow(Base):
    """Several products mixed together; at most one recipe is in use.

    With ``wanted_n`` its shares are solved for the wanted N:P:K:Ca:Mg, told as
    elements; an element that is ``NULL`` does not matter. Without it they are fixed.
    """

    __tablename__ = "recipe"

    name: ColumnClause[str]
    in_use: ColumnClause[bool] = having(default=False)
    water_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    wanted_n: ColumnClause[float | None]
    wanted_p: ColumnClause[float | None]
    wanted_k: ColumnClause[float | None]
    wanted_ca: ColumnClause[float | None]
    wanted_mg: ColumnClause[float | None]
    note: ColumnClause[str] = having(default="")
    gone_on: ColumnClause[date | None]


class RecipePartRow(Base):
    """One product of a recipe; ``share`` by mass, ``NULL`` where it is solved for."""

    __tablename__ = "recipe_part"
    __table_args__ = (UniqueConstraint("recipe_id", "tin_id"),)

    recipe_id: ColumnClause[int] = having(ForeignKey("recipe.id"))
    tin_id: ColumnClause[int] = having(ForeignKey("tin.id"))
    share: ColumnClause[float | None]


class RecipeUseRow(Base):
    """Where a recipe holds: for a plant, a place, a season, or these together.

    Days of the season are ``09-15``, written for the north, and turn with the house.
    """

    __tablename__ = "recipe_use"
    __table_args__ = (Index("ix_recipe_use_recipe_id", "recipe_id"),)

    recipe_id: ColumnClause[int] = having(ForeignKey("recipe.id"))
    plant_id: ColumnClause[int | None] = having(ForeignKey("plant.id"))
    place_id: ColumnClause[int | None] = having(ForeignKey("place.id"))
    from_day: ColumnClause[str | None]
    until_day: ColumnClause[str | None]


class ToolRow(Base):
    """What doses are measured with: ``kind`` is scale, spoon, syringe or cylinder.

    ``step`` is the least it shows (grams of a scale, mL of a syringe or cylinder, level
    spoons of a spoon); ``most`` what it holds, in the same.
    """

    __tablename__ = "tool"

    kind: ColumnClause[str]
    name: ColumnClause[str]
    step: ColumnClause[float]
    most: ColumnClause[float | None]


class SpoonWeightRow(Base):
    """The grams of one product in one level spoon, as the grower weighed them."""

    __tablename__ = "spoon_weight"
    __table_args__ = (UniqueConstraint("tool_id", "tin_id"),)

    tool_id: ColumnClause[int] = having(ForeignKey("tool.id"))
    tin_id: ColumnClause[int] = having(ForeignKey("tin.id"))
    g_per_level: ColumnClause[float]


class VesselRow(Base):
    """What feed stands or is carried in: ``kind`` is jug, can, bottle or mug.

    ``step_ml`` is the least its scale shows. A mug is the grower's own measure.
    """

    __tablename__ = "vessel"

    kind: ColumnClause[str]
    name: ColumnClause[str]
    volume_l: ColumnClause[float]
    how_many: ColumnClause[int] = having(default=1)
    step_ml: ColumnClause[float | None]


class StockRow(Base):
    """A stock solution made up in a bottle."""

    __tablename__ = "stock"

    name: ColumnClause[str]
    made_on: ColumnClause[date]
    keep_by: ColumnClause[date | None]
    volume_l: ColumnClause[float]
    water_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    note: ColumnClause[str] = having(default="")
    gone_on: ColumnClause[date | None]


class StockPartRow(Base):
    """What was weighed into a stock solution."""

    __tablename__ = "stock_part"
    __table_args__ = (UniqueConstraint("stock_id", "tin_id"),)

    stock_id: ColumnClause[int] = having(ForeignKey("stock.id"))
    tin_id: ColumnClause[int] = having(ForeignKey("tin.id"))
    mass_g: ColumnClause[float]


class DrawnRow(Base):
    """What a ticked plant took from the shelf, its share of the spare included.

    ``amount`` is grams of a dry tin, mL of a liquid or a stock solution, litres of a
    water. It goes with its care.
    """

    __tablename__ = "drawn"
    __table_args__ = (Index("ix_drawn_care_id", "care_id"),)

    care_id: ColumnClause[int] = having(ForeignKey("care.id"))
    tin_id: ColumnClause[int | None] = having(ForeignKey("tin.id"))
    stock_id: ColumnClause[int | None] = having(ForeignKey("stock.id"))
    water_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    amount: ColumnClause[float]


class ShelfEntryRow(Base):
    """What was counted on the shelf, or added to it; ``what`` is counted or added.

    ``amount`` as in ``DrawnRow``. ``after_round`` tells that it was counted after that
    day's round, so that what the round took is in the count already.
    """

    __tablename__ = "shelf_entry"
    __table_args__ = (Index("ix_shelf_entry_day", "day"),)

    tin_id: ColumnClause[int | None] = having(ForeignKey("tin.id"))
    stock_id: ColumnClause[int | None] = having(ForeignKey("stock.id"))
    water_id: ColumnClause[int | None] = having(ForeignKey("water.id"))
    day: ColumnClause[date]
    what: ColumnClause[str]
    amount: ColumnClause[float]
    after_round: ColumnClause[bool] = having(default=True)
    price: ColumnClause[float | None]
    note: ColumnClause[str] = having(default="")


class MeterRow(Base):
    """What a meter read in a finished jug, beside what was expected; EC in mS/cm.

    ``read_ms_per_cm`` is as the meter showed it; with ``temperature_c`` it had not been
    brought to 25 °C by the meter. ``ec_ms_per_cm`` is at 25 °C.
    """

    __tablename__ = "meter"
    __table_args__ = (Index("ix_meter_day", "day"),)

    day: ColumnClause[date]
    letter: ColumnClause[str]
    strength_ppm_n: ColumnClause[int]
    recipe_id: ColumnClause[int | None] = having(ForeignKey("recipe.id"))
    expected_low_ms_per_cm: ColumnClause[float | None]
    expected_high_ms_per_cm: ColumnClause[float | None]
    read_ms_per_cm: ColumnClause[float]
    temperature_c: ColumnClause[float | None]
    ec_ms_per_cm: ColumnClause[float]
    note: ColumnClause[str] = having(default="")


class SettingRow(Base):
    """One setting the grower gave, as JSON; a default has no row."""

    __tablename__ = "setting"
    __table_args__ = (UniqueConstraint("key"),)

    key: ColumnClause[str]
    value: ColumnClause[str]


class MigrationRow(Base):
    """The record of one migration; ``id`` is its number.

    ``compatible_from`` is the oldest schema whose program may still open the file;
    ``program`` is the version of growdesk that did it, empty before schema 5.
    """

    __tablename__ = "migration"

    name: ColumnClause[str]
    compatible_from: ColumnClause[int]
    at_s: ColumnClause[int]
    program: ColumnClause[str] = having(default="", server_default=text("''"))


class ActionRow(Base):
    """One action in the history, with its title as a person reads it.

    ``who`` is the account's name on the computer. A note has no changes and is never
    undone. ``moved_at_s`` and ``moved_by`` tell when and by whom it was undone or done
    again last. What ``digest`` goes over is told in ``digests``.
    """

    __tablename__ = "action"
    __table_args__ = (Index("ix_action_undone_is_note", "undone", "is_note"),)

    at_s: ColumnClause[int]
    title: ColumnClause[str]
    undone: ColumnClause[bool] = having(default=False)
    who: ColumnClause[str] = having(default="", server_default=text("''"))
    is_note: ColumnClause[bool] = having(default=False, server_default=text("0"))
    digest: ColumnClause[bytes | None]
    moved_at_s: ColumnClause[int | None]
    moved_by: ColumnClause[str] = having(default="", server_default=text("''"))


class ChangeRow(Base):
    """One changed row of an action: its images before and after, as JSON."""

    __tablename__ = "change"
    __table_args__ = (Index("ix_change_action_id", "action_id"),)

    action_id: ColumnClause[int] = having(ForeignKey("action.id"))
    table_name: ColumnClause[str]
    row_id: ColumnClause[int]
    before: ColumnClause[str | None]
    after: ColumnClause[str | None]


RECORDED: dict[str, type[Base]] = {
    row.__tablename__: row
    for row in (
        PlaceRow,
        BenchRow,
        PlantRow,
        LookRow,
        CareRow,
        PassByRow,
        PhotoRow,
        ReadingRow,
        BloomRow,
        SavedViewRow,
        JobDoneRow,
        ForecastRow,
        KindCorrectionRow,
        PlantCorrectionRow,
        MarkRow,
        TinRow,
        WaterRow,
        RecipeRow,
        RecipePartRow,
        RecipeUseRow,
        ToolRow,
        SpoonWeightRow,
        VesselRow,
        StockRow,
        StockPartRow,
        DrawnRow,
        ShelfEntryRow,
        MeterRow,
        SettingRow,
    )
}
"""The tables whose changes the journal keeps, by name."""
