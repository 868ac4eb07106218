"""The athlete page as values: who, what is open, what is missing, likely, and done."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QScrollArea, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space, Type, as_type, prose, text
from teamrehab.desktop.athlete.actions import Actions
from teamrehab.desktop.athlete.case_line import CaseLine
from teamrehab.desktop.athlete.case_switch import CaseSwitch
from teamrehab.desktop.athlete.entries import Entries
from teamrehab.desktop.athlete.events import Events
from teamrehab.desktop.athlete.graphs import Graphs
from teamrehab.desktop.athlete.heading import Heading
from teamrehab.desktop.athlete.likely_section import LikelySection
from teamrehab.desktop.athlete.portrait import Portrait
from teamrehab.desktop.athlete.progress import Progress
from teamrehab.desktop.athlete.steps_panel import StepsPanel
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Nature
from teamrehab.language import _
from teamrehab.reports.returning import watched

_TWO_COLUMNS_FROM = 860
"""Width in pixels from which what is likely stands beside what is missing."""


class AthleteView(QScrollArea):
    """Shows one portrait; what is asked for is told by the signals of its parts.

    ``case_chosen`` carries a case id.
    """

    case_chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.heading, self.actions_bar, self.switch = Heading(), Actions(), CaseSwitch()
        self.case, self.steps = CaseLine(), StepsPanel()
        self.progress, self.likely = Progress(), LikelySection()
        self.graphs, self.entries, self.events = Graphs(), Entries(), Events()
        self.healthy = text(_("No open case. Tests taken now are the athlete's own baseline."))
        self.healthy.setWordWrap(True)
        self.watch = text("")
        self.watch.setWordWrap(True)
        self.baseline, self.baseline_words = (
            Entries(),
            text(_("Before: healthy values and earlier injuries")),
        )
        as_type(self.baseline_words, Type.TITLE)
        self._case_parts = (self.case, self.steps, self.likely, self.graphs)
        self._lay_out()
        self.switch.chosen.connect(self.case_chosen)

    def show_portrait(self, portrait: Portrait) -> None:
        """Show an athlete as of now; the place on the page is kept."""
        row, history = portrait.row, portrait.history
        weight = portrait.athlete.weight_g
        self.events.show_portrait(portrait)
        self.heading.show_athlete(portrait.athlete, row, portrait.squad.day, portrait.now)
        ill = history is not None and history.case.nature is Nature.ILLNESS
        examined = history is None or _is_past_examining(history)
        self.actions_bar.show_for(
            has_case=history is not None,
            ill=ill,
            examined=examined,
            away=portrait.absence is not None,
        )
        self.switch.show_cases(portrait.cases, history, portrait.catalogue)
        self.healthy.setVisible(history is None)
        watch = watched(portrait.earlier, portrait.protocols, portrait.squad.day)
        self.watch.setText(" ".join(watch))
        self.watch.setVisible(bool(watch))
        for part in self._case_parts:
            part.setVisible(history is not None)
        self._show_baseline(portrait)
        self.progress.setVisible(portrait.decision is not None)
        if history is None:
            self.entries.show_entries(portrait.baseline, portrait.names, weight)
            return
        decision, protocol = portrait.decision, portrait.protocol
        self.case.show_case(history, portrait.catalogue, portrait.squad.day, portrait.earlier)
        if (steps := portrait.steps) is not None:
            self.steps.show_steps(steps, portrait.squad.day, portrait.names)
        if decision is not None and protocol is not None:
            self.progress.show_decision(decision, protocol)
        self.likely.show_row(row)
        results = decision.criteria if decision is not None else ()
        self.graphs.show_case(history, results, portrait.squad.day)
        zone = portrait.squad.team.zone
        self.entries.show_entries(history.facts, portrait.names, weight, zone)

    def _show_baseline(self, portrait: Portrait) -> None:
        """List the healthy athlete's tests below a case; without one they are the entries."""
        beside_case = portrait.history is not None and bool(portrait.baseline)
        tests = portrait.baseline if beside_case else ()
        self.baseline.show_entries(tests, portrait.names, portrait.athlete.weight_g)
        self.baseline.setVisible(beside_case)
        self.baseline_words.setVisible(beside_case)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = self.viewport().width() >= _TWO_COLUMNS_FROM
        across, down = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._columns.setDirection(across if wide else down)

    def _lay_out(self) -> None:
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(Space.WIDE, Space.NEAR, Space.WIDE, Space.APART)
        column.setSpacing(Space.TIGHT)
        for part in (
            self.heading,
            self.actions_bar,
            self.switch,
            self.healthy,
            self.watch,
            self.case,
            self.steps,
        ):
            column.addWidget(part)
        column.addSpacing(Space.NEAR)
        column.addLayout(self._below())
        column.addStretch(1)
        self.setWidget(page)

    def _below(self) -> QVBoxLayout:
        """Return what stands further down: the course, what was noted, what was before."""
        column = QVBoxLayout()
        column.setSpacing(Space.APART)
        column.addLayout(self._two_columns())
        column.addWidget(text(_("Tests, sessions and notes"), Type.TITLE))
        for part in (self.entries, self.events, self.baseline_words, self.baseline):
            column.addWidget(part)
        column.addWidget(self._caution())
        return column

    def _two_columns(self) -> QBoxLayout:
        self._columns = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._columns.setSpacing(Space.WIDE)
        self._columns.addWidget(self.progress, 3)
        beside = QVBoxLayout()
        beside.setSpacing(Space.APART)
        beside.addWidget(self.likely)
        beside.addWidget(self.graphs)
        beside.addStretch(1)
        self._columns.addLayout(beside, 2)
        return self._columns

    def _caution(self) -> QWidget:
        return prose(
            _(
                "Decision support for licensed staff: the clinician decides. "
                "For red flags seek medical review."
            ),
            Type.SMALL,
        )


def _is_past_examining(history: History) -> bool:
    """Return whether tests are what is done now: examined, or past the first stage."""
    return history.last(Examination) is not None or (history.stage or 1) > 1
