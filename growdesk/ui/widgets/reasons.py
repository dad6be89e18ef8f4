"""Show why: the verdict, the deciding sentence large, then all that lies behind it.

Takes a ``PlantDetail`` and lays its sentences out; it makes no sentence itself.
"""

from __future__ import annotations

from collections import Counter
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from growdesk.domain import speech
from growdesk.domain.explain import Role, ToldLine
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.pages_beside import OLD_SIGN, WOULD_CHANGE
from growdesk.domain.pages_strength import CHAIN
from growdesk.domain.rule_book import title_of
from growdesk.domain.rules.potting import SALTS
from growdesk.domain.speech import tr
from growdesk.ui import icons, theme, week_words, words
from growdesk.ui.looking import writes
from growdesk.ui.name_text import name_html, shown_name
from growdesk.ui.widgets.gloss import Glossed
from growdesk.ui.widgets.parts import (
    button,
    clear,
    enlarge,
    label,
    link,
    link_line,
)
from growdesk.ui.widgets.rungs import rungs
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.explain import Told
    from growdesk.services.values import PlantDetail
    from growdesk.services.week_values import WeekView
    from growdesk.ui.theme import Colours

    _Week = tuple[str, tuple[str, ...]]

_POURED = frozenset({Verdict.FEED, Verdict.FLUSH, Verdict.CLEAR_WATER})
_HEADS = (
    (Role.DECIDES, ""),
    (Role.SUPPORTS, ""),
    (Role.NOT_A_REASON, speech.mark("What did not decide")),
    (Role.UNKNOWN, speech.mark("What is not known")),
)


class Reasons(QWidget):
    """The upper part of the detail pane."""

    change_wanted = Signal()
    rule_wanted = Signal(str)
    kind_wanted = Signal(int)
    back_wanted = Signal(int)
    word_wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.week: WeekView | None = None
        self.words: list[str] = []
        self._ruled: Counter[str] = Counter()
        """The keys of the glossary's words in what is shown, in their order."""
        self._names = self._kind_title = ""
        self._shown: tuple[PlantDetail, Colours, _Week] | None = None
        self._upper: tuple[int, tuple[str, ...], Counter[str]] | None = None
        """How many rows stand above the week, with their words and rules."""
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(14, 14, 12, 12)
        self._column.setSpacing(6)

    def show_plant(self, detail: PlantDetail) -> None:
        """Show the reasons of one plant on one day; what stands there is left alone."""
        bare = replace(detail, looks=(), care=(), photos=())
        wanted = (bare, theme.colours(), self._week_of(detail))
        shown, self._shown = self._shown, wanted
        if wanted == shown:
            return
        if shown is not None and wanted[:2] == shown[:2] and self._upper is not None:
            self._show_lower(detail, *self._upper)
            return
        self._show_upper(detail)
        if self._upper is not None:
            self._show_lower(detail, *self._upper)

    def _show_upper(self, detail: PlantDetail) -> None:
        """Show what stands above the plant's week: verdict, reasons and strength."""
        self._upper = None
        clear(self._column)
        self.words.clear()
        self._ruled.clear()
        self._names, self._kind_title = detail.draft.name, detail.kind_title
        row = _name_row(detail, lambda: self.kind_wanted.emit(detail.plant_id))
        change = writes(link(tr("Change…"), self.change_wanted.emit))
        change.setObjectName("change-plant")
        change.setAccessibleName(
            tr("Change the plant {tag}").format(tag=detail.draft.tag)
        )
        row.addWidget(change, 0, Qt.AlignmentFlag.AlignTop)
        self._column.addLayout(row)
        self._column.addSpacing(6)
        if detail.left:
            self._add_last_word(detail)
            return
        self._column.addLayout(_verdict_row(detail))
        if _off_band(detail):
            off_band = label(_off_band(detail), tone="wrong")
            off_band.setObjectName("off-band")
            self._column.addWidget(off_band)
        self._add_told(detail)
        if detail.old_sign:
            told = (detail.old_sign,)
            self._add_section(tr(OLD_SIGN.title), told, OLD_SIGN.rule)
        self._add_strength(detail)
        self._upper = self._column.count(), tuple(self.words), Counter(self._ruled)

    def _show_lower(
        self,
        detail: PlantDetail,
        above: int,
        words_above: tuple[str, ...],
        ruled_above: Counter[str],
    ) -> None:
        """Show the week and what stands below it; what is above is left alone."""
        clear(self._column, above)
        self.words[:] = words_above
        self._ruled = Counter(ruled_above)
        self._add_section(*self._week_of(detail))
        head = (
            tr("What would stop it") if _is_fed(detail) else tr("What would bring feed")
        )
        self._add_section(head, detail.would_change, WOULD_CHANGE.rule)
        asides = (detail.salts_assume,) if detail.salts_assume else ()
        self._add_section(tr("Salts"), detail.salts, SALTS, asides)
        worth = (detail.advice, *detail.kind_corrected)
        self._add_section(tr("Worth knowing of its kind"), tuple(filter(None, worth)))
        self._column.addStretch(1)

    def _add_last_word(self, detail: PlantDetail) -> None:
        """Say in place of a verdict what became of the plant; it may come back."""
        told = label(detail.left, scale=1.28)
        told.setObjectName("last-word")
        self._column.addWidget(told)
        self._column.addWidget(
            label(
                tr("It is in no round. Its tag and its records are kept."), tone="muted"
            )
        )
        back = writes(
            link_line(
                tr("It is here again"), partial(self.back_wanted.emit, detail.plant_id)
            )
        )
        back.setObjectName("back-again")
        back.setAccessibleName(tr("{tag} is here again").format(tag=detail.draft.tag))
        self._column.addWidget(back)
        self._column.addStretch(1)

    def _week_of(self, detail: PlantDetail) -> _Week:
        """Give the plant's week under its heading; nothing until it has come."""
        line = None if self.week is None else self.week.line(detail.plant_id)
        if self.week is None or line is None:
            return "", ()
        return week_words.section(self.week), line.told

    def _add_told(self, detail: PlantDetail) -> None:
        for role, head in _HEADS:
            found = [told for told in detail.told if told.role is role]
            if found:
                self._add_head(tr(head))
            for told in found:
                self._add_lines(told)

    def _add_lines(self, told: Told) -> None:
        """Add a reason an idea a line; the first leads to its rule.

        The first line of what decides is large, since it is what one came for.
        """
        first, *rest = told.lines or (ToldLine(told.sentence),)
        decides = told.role is Role.DECIDES
        line = self._line(first.text, _tone(first), 1.28 if decides else 1.0)
        if decides:
            line.setObjectName("deciding-sentence")
            line.setAccessibleName(told.sentence)
        self._add_ruled(line, told.rule)
        for each in rest:
            self._column.addWidget(self._line(each.text, _tone(each)))

    def _line(self, text: str, tone: str = "", scale: float = 1.0) -> Glossed:
        """Give a line whose words explain themselves, each once in the pane."""
        names = (self._names, self._kind_title)
        line = Glossed(text, self.words, names, tone=tone, scale=scale)
        self.words.extend(line.keys)
        line.word_wanted.connect(self.word_wanted)
        return line

    def _add_strength(self, detail: PlantDetail) -> None:
        if detail.strength_rungs:
            self._add_head(tr(CHAIN.title))
            self._add_ruled(rungs(detail), CHAIN.rule)

    def _add_ruled(self, sentence: QLabel, rule: str) -> None:
        """Add a sentence with the way to its rule at its end."""
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(sentence, 1)
        about = button("", partial(self.rule_wanted.emit, rule))
        named = tr("About the rule: {title_of}").format(title_of=title_of(rule))
        about.setObjectName(f"rule-{self._column.count()}")
        self._ruled[rule] += 1
        about.setAccessibleName(
            named if self._ruled[rule] == 1 else f"{named}, {self._ruled[rule]}"
        )
        about.setToolTip(named)
        about.setProperty("about", "true")
        about.setIcon(icons.icon("rule", theme.colours().muted))
        row.addWidget(about, 0, Qt.AlignmentFlag.AlignTop)
        self._column.addLayout(row)

    def _add_section(
        self,
        head: str,
        sentences: tuple[str, ...],
        rule: str = "",
        asides: tuple[str, ...] = (),
    ) -> None:
        """Add sentences that come from one rule; the first leads to it."""
        told: list[QLabel] = [self._line(sentence) for sentence in sentences]
        told += [label(aside, tone="muted") for aside in asides]
        if told:
            self._add_head(head)
        for place, each in enumerate(told):
            if rule and place == 0:
                self._add_ruled(each, rule)
            else:
                self._column.addWidget(each)

    def _add_head(self, head: str) -> None:
        if head:
            self._column.addSpacing(6)
            self._column.addWidget(label(head, tone="head"))


def _is_fed(detail: PlantDetail) -> bool:
    return detail.verdict is Verdict.FEED


def _name_row(detail: PlantDetail, to_kind: Callable[[], object]) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(12)
    tag = QLabel(detail.draft.tag)
    tag.setTextFormat(Qt.TextFormat.PlainText)
    enlarge(tag, 1.15, strong=True)
    tag.setObjectName("tag-badge")
    c = theme.colours()
    tag.setStyleSheet(
        f"border: 2px solid {c.edge}; border-radius: 6px; padding: 4px 9px;"
    )
    row.addWidget(tag, 0, Qt.AlignmentFlag.AlignTop)
    names = QVBoxLayout()
    names.setSpacing(1)
    said = detail.draft.name
    name = label("" if said else tr("No name recorded"), scale=1.15)
    if said:
        name.setTextFormat(Qt.TextFormat.RichText)
        name.setText(name_html(said))
        name.setAccessibleName(shown_name(said))
    name.setObjectName("plant-name")
    enlarge(name, 1.0, strong=True)
    names.addWidget(name)
    kind = (
        detail.kind_title
        if detail.kind_known
        else tr("kind not known, judged with care")
    )
    where = detail.place or tr("no place recorded")
    line = TextLink(kind, f" · {where}", to_kind)
    line.setObjectName("to-kind")
    line.setToolTip(tr("What its kind wants, with sources; correct it there"))
    names.addWidget(line)
    row.addLayout(names, 1)
    return row


def _verdict_row(detail: PlantDetail) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(10)
    colour = theme.colours().verdict(detail.verdict)
    mark = QLabel()
    mark.setPixmap(icons.pixmap(icons.mark_name(detail.verdict), colour, 34, 2.0))
    mark.setAccessibleName(words.VERDICT[detail.verdict])
    row.addWidget(mark)
    word = QLabel(words.VERDICT[detail.verdict])
    word.setObjectName("verdict-word")
    word.setStyleSheet(f"color: {colour};")
    enlarge(word, 1.6, strong=True)
    row.addWidget(word)
    row.addWidget(label(how(detail), tone="muted"), 1)
    return row


def _served(detail: PlantDetail) -> str:
    """Say what is poured and from which jug; its own stands among the steps."""
    if detail.strength is None or not _is_fed(detail):
        return ""
    if detail.jug_waits:
        return tr("its jug is told once all plants are judged")
    own = detail.strength.ppm_n
    poured = own if detail.jug_ppm_n is None else detail.jug_ppm_n
    return words.served(poured, None, detail.letter)


def _tone(line: ToldLine) -> str:
    return "open" if line.is_open else ""


def _off_band(detail: PlantDetail) -> str:
    """Say how the plant is served outside its band, or nothing."""
    if detail.strength is None or not detail.outside_band or detail.done is not None:
        return ""
    told = words.off_band_told(detail.strength.ppm_n, detail.jug_ppm_n)
    return f"{told[:1].upper()}{told[1:]}." if told else ""


def how(detail: PlantDetail) -> str:
    """Say how to water, how strong and how much, and what was already done."""
    parts = [words.WATER[detail.water]]
    if detail.verdict is Verdict.LOOK_FIRST and detail.water is not Water.NONE:
        parts = [tr("until then clear water, {parts}").format(parts=parts[0])]
    if detail.pour_l and detail.verdict in _POURED:
        parts.append(words.volume(detail.pour_l))
    said = ", ".join(parts)
    if _served(detail):
        said = f"{_served(detail)}\n{said}"
    return (
        tr("{said}\nDone: {done}").format(said=said, done=words.done(detail.done))
        if detail.done
        else said
    )
