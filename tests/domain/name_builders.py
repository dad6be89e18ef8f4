"""The shipped genera, and names set as marked text: italic between underscores."""

from pathlib import Path

from growdesk.domain.genera import parse_genera
from growdesk.domain.name_runs import Form, runs
from growdesk.domain.names import parse_name
from growdesk.domain.plant_name import PlantName

RESOURCES = Path(__file__).parents[2] / "resources"


def text_of(name: str) -> str:
    return (RESOURCES / name).read_text(encoding="utf-8")


GENERA = parse_genera(
    text_of("genera.csv"), text_of("genera_made.csv"), text_of("genera_unsure.csv")
)


def read(text: str) -> PlantName:
    return parse_name(text, GENERA)


def set_as(text: str, form: Form = Form.TYPED) -> str:
    """Give a name with its italic stretches between underscores."""
    return "".join(
        f"_{run.text}_" if run.italic else run.text for run in runs(read(text), form)
    )


def sorts(text: str) -> list[str]:
    return [str(doubt.sort) for doubt in read(text).doubts]
