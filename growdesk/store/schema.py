"""The tables of a collection, as SQLAlchemy sees them.

The migrations make them; this module only describes how they stand after the last one.
It knows no use case and no words for people. Days are ``Date``, instants are whole
seconds UTC, enumerations are their text, sets are texts joined by commas. Nothing
cascades: every row that goes is taken by name, so that the journal can bring it back.
Annotations are no texts here: SQLAlchemy would work each of them out at the start.
"""

from datetime import date

from sqlalchemy import (
    BigInteger,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """What all tables share: a whole number as key, texts without a length."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map = {  # noqa: RUF012 -- read so
        int: Integer().with_variant(BigInteger(), "postgresql"),
        str: Text(),
        float: Float(),
    }

    id: Mapped[int] = mapped_column(primary_key=True, sort_order=-1)


class PlaceRow(Base):
    """A place where plants stand."""

    __tablename__ = "place"
    __table_args__ = (UniqueConstraint("name"),)

    name: Mapped[str]
    kind: Mapped[str]
    controlled: Mapped[bool] = mapped_column(default=False)
    outdoors: Mapped[bool] = mapped_column(default=False)
    lamps_hours: Mapped[float | None]
    lamps_ppfd: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
    facing: Mapped[str | None]
    glass: Mapped[str | None]
    shaded: Mapped[float | None]
    position: Mapped[int | None]


class BenchRow(Base):
    """A bench, shelf or tray of a place; ``position`` is its turn on the round.

    ``at_glass`` benches stand at the pane, where nights are coldest and noons hottest.
    """

    __tablename__ = "bench"
    __table_args__ = (UniqueConstraint("place_id", "name"),)

    place_id: Mapped[int] = mapped_column(ForeignKey("place.id"))
    name: Mapped[str]
    position: Mapped[int]
    at_glass: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(default="")


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

    tag: Mapped[str]
    name: Mapped[str]
    kind: Mapped[str]
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id"))
    bench: Mapped[int | None]
    hybrid: Mapped[bool] = mapped_column(default=False)
    pot_volume_l: Mapped[float | None]
    volume_l: Mapped[float | None]
    medium: Mapped[str | None]
    mounted: Mapped[bool] = mapped_column(default=False)
    size: Mapped[str | None]
    under_cover: Mapped[bool] = mapped_column(default=False)
    repotted_on: Mapped[date | None]
    slow_release_until: Mapped[date | None]
    full_strength_ppm_n: Mapped[float | None]
    feed_ceiling_ppm_n: Mapped[float | None]
    feed_interval_days: Mapped[int | None]
    ignores_rest: Mapped[bool] = mapped_column(default=False)
    overrule_verdict: Mapped[str | None]
    overrule_reason: Mapped[str | None]
    overrule_until: Mapped[date | None]
    overrule_water: Mapped[str | None]
    overrule_since: Mapped[date | None]
    acquired_on: Mapped[date | None]
    source: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    binned_on: Mapped[date | None]
    status: Mapped[str] = mapped_column(
        default="growing", server_default=text("'growing'")
    )
    left_on: Mapped[date | None]
    left_why: Mapped[str] = mapped_column(default="", server_default=text("''"))
    bench_id: Mapped[int | None] = mapped_column(ForeignKey("bench.id"))
    parent_id: Mapped[int | None] = mapped_column(ForeignKey("plant.id"))
    parent_how: Mapped[str | None]
    parentage: Mapped[str] = mapped_column(default="", server_default=text("''"))
    papers: Mapped[str] = mapped_column(default="", server_default=text("''"))
    held_as: Mapped[str | None]
    how_many: Mapped[int | None]
    quarantine_until: Mapped[date | None]


class LookRow(Base):
    """A look. ``NULL`` is not recorded; an empty ``health`` is looked, no trouble."""

    __tablename__ = "look"
    __table_args__ = (Index("ix_look_plant_id_day", "plant_id", "day"),)

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    day: Mapped[date]
    emerging: Mapped[int | None]
    extending: Mapped[int | None]
    maturing: Mapped[int | None]
    matured: Mapped[int | None]
    stalled: Mapped[int | None]
    root_tips: Mapped[str | None]
    longest_new_root_mm: Mapped[float | None]
    lead_length_mm: Mapped[float | None]
    new_leaf: Mapped[str | None]
    flowering: Mapped[str | None]
    leaves: Mapped[str | None]
    bulbs: Mapped[str | None]
    pot: Mapped[str | None]
    health: Mapped[str | None]
    runoff_ec_ms_per_cm: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
    keikis: Mapped[int | None]
    keiki_root_mm: Mapped[float | None]
    pods: Mapped[int | None]
    spike_mm: Mapped[float | None]


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

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    day: Mapped[date]
    what: Mapped[str]
    strength_ppm_n: Mapped[float | None]
    volume_l: Mapped[float | None]
    ec_ms_per_cm: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
    product: Mapped[str] = mapped_column(default="", server_default=text("''"))
    repeat_on: Mapped[date | None]
    rain_mm: Mapped[float | None]
    medium: Mapped[str | None]
    pot_volume_l: Mapped[float | None]
    from_place: Mapped[str | None]
    to_place: Mapped[str | None]


class PassByRow(Base):
    """A plant passed by on a watering day because it was still damp."""

    __tablename__ = "pass_by"
    __table_args__ = (
        UniqueConstraint("plant_id", "day"),
        Index("ix_pass_by_day", "day"),
    )

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    day: Mapped[date]


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

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    look_id: Mapped[int | None] = mapped_column(ForeignKey("look.id"))
    sha256: Mapped[str]
    ext: Mapped[str]
    width: Mapped[int]
    height: Mapped[int]
    taken_on: Mapped[date | None]
    file_name: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="", server_default=text("''"))
    has_location: Mapped[bool | None]


class ReadingRow(Base):
    """One day of a place: temperatures in °C, light in mol m-2 d-1, humidity in %."""

    __tablename__ = "reading"
    __table_args__ = (UniqueConstraint("place_id", "day"),)

    place_id: Mapped[int] = mapped_column(ForeignKey("place.id"))
    day: Mapped[date]
    mean_c: Mapped[float | None]
    low_c: Mapped[float | None]
    high_c: Mapped[float | None]
    light_mol_per_m2_d: Mapped[float | None]
    humidity_percent: Mapped[float | None]


class BloomRow(Base):
    """One flowering of a plant from spike to last faded flower.

    ``size_mm`` is the natural spread of a flower.
    """

    __tablename__ = "bloom"
    __table_args__ = (Index("ix_bloom_plant_id", "plant_id"),)

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    spike_seen_on: Mapped[date | None]
    first_open_on: Mapped[date | None]
    last_faded_on: Mapped[date | None]
    flowers: Mapped[int | None]
    note: Mapped[str] = mapped_column(default="")
    spikes: Mapped[int | None]
    size_mm: Mapped[float | None]
    award: Mapped[str] = mapped_column(default="", server_default=text("''"))


class SavedViewRow(Base):
    """A view of the collection by name; ``what`` is its find, columns and order."""

    __tablename__ = "saved_view"
    __table_args__ = (UniqueConstraint("name"),)

    name: Mapped[str]
    what: Mapped[str]


class JobDoneRow(Base):
    """A dated job that was done, or let go: ``what`` is done or let-go.

    ``job`` and ``due_on`` are the key and the day of the job as the calendar had it.
    """

    __tablename__ = "job_done"
    __table_args__ = (Index("ix_job_done_due_on", "due_on"),)

    plant_id: Mapped[int | None] = mapped_column(ForeignKey("plant.id"))
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id"))
    job: Mapped[str]
    due_on: Mapped[date]
    what: Mapped[str]
    done_on: Mapped[date]
    note: Mapped[str] = mapped_column(default="")


class ForecastRow(Base):
    """The coldest and the hottest that one day of a place is expected to have, in °C.

    The cold is of the night that begins on the day.
    """

    __tablename__ = "forecast"
    __table_args__ = (UniqueConstraint("place_id", "day"),)

    place_id: Mapped[int] = mapped_column(ForeignKey("place.id"))
    day: Mapped[date]
    low_c: Mapped[float | None]
    high_c: Mapped[float | None]


class KindCorrectionRow(Base):
    """One field of a kind as the grower has it, apart from the shipped table.

    ``value`` is the cell as ``kinds.csv`` would hold it; ``kind`` is the kind's key.
    """

    __tablename__ = "kind_correction"
    __table_args__ = (UniqueConstraint("kind", "field"),)

    kind: Mapped[str]
    field: Mapped[str]
    value: Mapped[str]
    note: Mapped[str] = mapped_column(default="")


class PlantCorrectionRow(Base):
    """One field of a kind that holds otherwise for one plant; ``value`` as above."""

    __tablename__ = "plant_correction"
    __table_args__ = (UniqueConstraint("plant_id", "field"),)

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    field: Mapped[str]
    value: Mapped[str]
    note: Mapped[str] = mapped_column(default="")


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

    plant_id: Mapped[int] = mapped_column(ForeignKey("plant.id"))
    day: Mapped[date]
    verdict: Mapped[str]
    rule: Mapped[str]
    kind: Mapped[str]
    better: Mapped[str]
    marked_on: Mapped[date]
    note: Mapped[str] = mapped_column(default="")


class TinRow(Base):
    """A tin on the shelf; at most one is in use.

    ``formula`` is of a single salt. ``price`` is paid for ``pack_amount``, which is in
    grams, of a liquid in mL. A tin that went off the shelf keeps its row.
    """

    __tablename__ = "tin"

    name: Mapped[str]
    analysis: Mapped[str]
    density_g_per_ml: Mapped[float | None]
    in_use: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(default="")
    formula: Mapped[str | None]
    ec_per_100_ppm_n_ms_per_cm: Mapped[float | None]
    price: Mapped[float | None]
    pack_amount: Mapped[float | None]
    gone_on: Mapped[date | None]


class WaterRow(Base):
    """A kind of water at hand; at most one is in use.

    Alkalinity and hardness as mg/L CaCO3, the rest as the ions of their names. A blend
    has its two waters, the share of the first, and what the share is reckoned from:
    ``aim`` is share, alkalinity or ec.
    """

    __tablename__ = "water"

    kind: Mapped[str]
    ec_ms_per_cm: Mapped[float | None]
    in_use: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(default="")
    name: Mapped[str | None]
    alkalinity_mg_per_l: Mapped[float | None]
    hardness_mg_per_l: Mapped[float | None]
    ca_mg_per_l: Mapped[float | None]
    mg_mg_per_l: Mapped[float | None]
    k_mg_per_l: Mapped[float | None]
    na_mg_per_l: Mapped[float | None]
    cl_mg_per_l: Mapped[float | None]
    so4_mg_per_l: Mapped[float | None]
    no3_mg_per_l: Mapped[float | None]
    capacity_l: Mapped[float | None]
    first_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    second_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    first_share: Mapped[float | None]
    aim: Mapped[str | None]
    aim_value: Mapped[float | None]
    gone_on: Mapped[date | None]


class RecipeRow(Base):
    """Several products mixed together; at most one recipe is in use.

    With ``wanted_n`` its shares are solved for the wanted N:P:K:Ca:Mg, told as
    elements; an element that is ``NULL`` does not matter. Without it they are fixed.
    """

    __tablename__ = "recipe"

    name: Mapped[str]
    in_use: Mapped[bool] = mapped_column(default=False)
    water_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    wanted_n: Mapped[float | None]
    wanted_p: Mapped[float | None]
    wanted_k: Mapped[float | None]
    wanted_ca: Mapped[float | None]
    wanted_mg: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
    gone_on: Mapped[date | None]


class RecipePartRow(Base):
    """One product of a recipe; ``share`` by mass, ``NULL`` where it is solved for."""

    __tablename__ = "recipe_part"
    __table_args__ = (UniqueConstraint("recipe_id", "tin_id"),)

    recipe_id: Mapped[int] = mapped_column(ForeignKey("recipe.id"))
    tin_id: Mapped[int] = mapped_column(ForeignKey("tin.id"))
    share: Mapped[float | None]


class RecipeUseRow(Base):
    """Where a recipe holds: for a plant, a place, a season, or these together.

    Days of the season are ``09-15``, written for the north, and turn with the house.
    """

    __tablename__ = "recipe_use"
    __table_args__ = (Index("ix_recipe_use_recipe_id", "recipe_id"),)

    recipe_id: Mapped[int] = mapped_column(ForeignKey("recipe.id"))
    plant_id: Mapped[int | None] = mapped_column(ForeignKey("plant.id"))
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id"))
    from_day: Mapped[str | None]
    until_day: Mapped[str | None]


class ToolRow(Base):
    """What doses are measured with: ``kind`` is scale, spoon, syringe or cylinder.

    ``step`` is the least it shows (grams of a scale, mL of a syringe or cylinder, level
    spoons of a spoon); ``most`` what it holds, in the same.
    """

    __tablename__ = "tool"

    kind: Mapped[str]
    name: Mapped[str]
    step: Mapped[float]
    most: Mapped[float | None]


class SpoonWeightRow(Base):
    """The grams of one product in one level spoon, as the grower weighed them."""

    __tablename__ = "spoon_weight"
    __table_args__ = (UniqueConstraint("tool_id", "tin_id"),)

    tool_id: Mapped[int] = mapped_column(ForeignKey("tool.id"))
    tin_id: Mapped[int] = mapped_column(ForeignKey("tin.id"))
    g_per_level: Mapped[float]


class VesselRow(Base):
    """What feed stands or is carried in: ``kind`` is jug, can, bottle or mug.

    ``step_ml`` is the least its scale shows. A mug is the grower's own measure.
    """

    __tablename__ = "vessel"

    kind: Mapped[str]
    name: Mapped[str]
    volume_l: Mapped[float]
    how_many: Mapped[int] = mapped_column(default=1)
    step_ml: Mapped[float | None]


class StockRow(Base):
    """A stock solution made up in a bottle."""

    __tablename__ = "stock"

    name: Mapped[str]
    made_on: Mapped[date]
    keep_by: Mapped[date | None]
    volume_l: Mapped[float]
    water_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    note: Mapped[str] = mapped_column(default="")
    gone_on: Mapped[date | None]


class StockPartRow(Base):
    """What was weighed into a stock solution."""

    __tablename__ = "stock_part"
    __table_args__ = (UniqueConstraint("stock_id", "tin_id"),)

    stock_id: Mapped[int] = mapped_column(ForeignKey("stock.id"))
    tin_id: Mapped[int] = mapped_column(ForeignKey("tin.id"))
    mass_g: Mapped[float]


class DrawnRow(Base):
    """What a ticked plant took from the shelf, its share of the spare included.

    ``amount`` is grams of a dry tin, mL of a liquid or a stock solution, litres of a
    water. It goes with its care.
    """

    __tablename__ = "drawn"
    __table_args__ = (Index("ix_drawn_care_id", "care_id"),)

    care_id: Mapped[int] = mapped_column(ForeignKey("care.id"))
    tin_id: Mapped[int | None] = mapped_column(ForeignKey("tin.id"))
    stock_id: Mapped[int | None] = mapped_column(ForeignKey("stock.id"))
    water_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    amount: Mapped[float]


class ShelfEntryRow(Base):
    """What was counted on the shelf, or added to it; ``what`` is counted or added.

    ``amount`` as in ``DrawnRow``. ``after_round`` tells that it was counted after that
    day's round, so that what the round took is in the count already.
    """

    __tablename__ = "shelf_entry"
    __table_args__ = (Index("ix_shelf_entry_day", "day"),)

    tin_id: Mapped[int | None] = mapped_column(ForeignKey("tin.id"))
    stock_id: Mapped[int | None] = mapped_column(ForeignKey("stock.id"))
    water_id: Mapped[int | None] = mapped_column(ForeignKey("water.id"))
    day: Mapped[date]
    what: Mapped[str]
    amount: Mapped[float]
    after_round: Mapped[bool] = mapped_column(default=True)
    price: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")


class MeterRow(Base):
    """What a meter read in a finished jug, beside what was expected; EC in mS/cm.

    ``read_ms_per_cm`` is as the meter showed it; with ``temperature_c`` it had not been
    brought to 25 °C by the meter. ``ec_ms_per_cm`` is at 25 °C.
    """

    __tablename__ = "meter"
    __table_args__ = (Index("ix_meter_day", "day"),)

    day: Mapped[date]
    letter: Mapped[str]
    strength_ppm_n: Mapped[int]
    recipe_id: Mapped[int | None] = mapped_column(ForeignKey("recipe.id"))
    expected_low_ms_per_cm: Mapped[float | None]
    expected_high_ms_per_cm: Mapped[float | None]
    read_ms_per_cm: Mapped[float]
    temperature_c: Mapped[float | None]
    ec_ms_per_cm: Mapped[float]
    note: Mapped[str] = mapped_column(default="")


class SettingRow(Base):
    """One setting the grower gave, as JSON; a default has no row."""

    __tablename__ = "setting"
    __table_args__ = (UniqueConstraint("key"),)

    key: Mapped[str]
    value: Mapped[str]


class MigrationRow(Base):
    """The record of one migration; ``id`` is its number.

    ``compatible_from`` is the oldest schema whose program may still open the file;
    ``program`` is the version of growdesk that did it, empty before schema 5.
    """

    __tablename__ = "migration"

    name: Mapped[str]
    compatible_from: Mapped[int]
    at_s: Mapped[int]
    program: Mapped[str] = mapped_column(default="", server_default=text("''"))


class ActionRow(Base):
    """One action in the history, with its title as a person reads it.

    ``who`` is the account's name on the computer. A note has no changes and is never
    undone. ``moved_at_s`` and ``moved_by`` tell when and by whom it was undone or done
    again last. What ``digest`` goes over is told in ``digests``.
    """

    __tablename__ = "action"
    __table_args__ = (Index("ix_action_undone_is_note", "undone", "is_note"),)

    at_s: Mapped[int]
    title: Mapped[str]
    undone: Mapped[bool] = mapped_column(default=False)
    who: Mapped[str] = mapped_column(default="", server_default=text("''"))
    is_note: Mapped[bool] = mapped_column(default=False, server_default=text("0"))
    digest: Mapped[bytes | None]
    moved_at_s: Mapped[int | None]
    moved_by: Mapped[str] = mapped_column(default="", server_default=text("''"))


class ChangeRow(Base):
    """One changed row of an action: its images before and after, as JSON."""

    __tablename__ = "change"
    __table_args__ = (Index("ix_change_action_id", "action_id"),)

    action_id: Mapped[int] = mapped_column(ForeignKey("action.id"))
    table_name: Mapped[str]
    row_id: Mapped[int]
    before: Mapped[str | None]
    after: Mapped[str | None]


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
