"""A clearance is only ever a signature, and says for what."""

from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.reason_field import ReasonField
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.coach_words import CoachWords
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading, TypedError
from teamrehab.desktop.forms import without_mnemonic
from teamrehab.domain.athletes import StaffMember
from teamrehab.domain.decision import Decision, Proposal
from teamrehab.domain.injuries import Clearance, Scope
from teamrehab.domain.names import plain
from teamrehab.domain.plausibility import Implausible
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.signing import open_for
from teamrehab.language import _
from teamrehab.reports.wording_clinical import proposal_sentence


class ClearanceForm(Form):
    """Signed by typing one's own name; the role stands beside it.

    ``reason`` is asked for when criteria are still open for what it is signed for. The roles
    that the protocol lets sign are seen before anything is typed: the task refuses others.
    """

    def __init__(
        self,
        occasion: Occasion,
        me: StaffMember,
        decision: Decision | None,
        protocol: Protocol | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._me, self._decision = occasion, me, decision
        self._protocol = protocol
        may_sign = () if protocol is None else protocol.may_sign
        if decision is not None:
            self.add_heading(proposal_sentence(decision))
            self._say_what_is_open(decision)
        self._scope_words, self._sign_words = _("Cleared for"), _("Si&gn with your name")
        self.scope = Choice(scope_answers())
        self.add(self._scope_words, self.scope)
        self.limit = CoachWords(self, _("&Limit"), _("Minutes or role only."))
        self.reason = ReasonField(self, _("needed while criteria are open"))
        self.signature = QLineEdit()
        self.add(self._sign_words, self.signature, _signing(me, may_sign))

    def _say_what_is_open(self, decision: Decision) -> None:
        """Name the criteria that are open: who signs against them knows which."""
        if decision.missing:
            names = "; ".join(one.criterion.sentence for one in decision.missing)
            line = text(_("Open: {criteria}.").format(criteria=names), Type.SMALL)
            line.setWordWrap(True)
            self.rows.addRow(line)

    @property
    @override
    def title(self) -> str:
        return _("Sign a clearance")

    @property
    @override
    def save_words(self) -> str:
        return _("Sign for {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        scope = reading.answer(self.scope, self._scope_words)
        reading.finish()
        troubles = self.limit.troubles() if scope is Scope.MATCH_WITH_LIMIT else []
        missing = [*self._unsigned(), *self._unreasoned(scope or Scope.MATCH)]
        if troubles or missing:
            raise TypedError(troubles, missing)
        with_limit = scope is Scope.MATCH_WITH_LIMIT
        clearance = Clearance(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            scope=scope or Scope.TEAM_TRAINING,
            signed_by=self._me.name,
            limit=self.limit.words if with_limit else "",
        )
        return (clearance,)

    def _unsigned(self) -> list[Implausible]:
        typed = _bare(self.signature.text())
        if typed and typed == _bare(self._me.name):
            return []
        return [
            Implausible(
                field=without_mnemonic(self._sign_words),
                value=self.signature.text().strip() or _("empty"),
                allowed=_("your own name is needed"),
                remedy=_("Type {name}.").format(name=self._me.name),
            )
        ]

    def _unreasoned(self, scope: Scope) -> list[Implausible]:
        if self.reason.words or self._is_proposed(scope):
            return []
        return [
            Implausible(
                field=self.reason.accessibleName(),
                value=_("empty"),
                allowed=_("criteria are still open"),
                remedy=_("Say why you clear now."),
            )
        ]

    def _is_proposed(self, scope: Scope) -> bool:
        decision, protocol = self._decision, self._protocol
        if decision is None or protocol is None:
            return True
        stopped = decision.proposal is Proposal.STOP_AND_REVIEW
        return not (stopped or decision.held or open_for(scope, decision, protocol))


_TITLES = frozenset({"dr", "prof", "med", "mr", "mrs", "ms", "miss"})


def _bare(name: str) -> str:
    """Return a name as one signs it: without case, accents, titles or stray space.

    A name that is nothing but titles stays as it is.
    """
    words = plain(name).replace(".", " ").split()
    return " ".join([word for word in words if word not in _TITLES] or words)


def scope_answers() -> list[tuple[Scope, str]]:
    """Return what a clearance can be for."""
    return [
        (Scope.TEAM_TRAINING, _("team training")),
        (Scope.MATCH_WITH_LIMIT, _("match with a limit")),
        (Scope.MATCH, _("match")),
    ]


def _signing(me: StaffMember, may_sign: tuple[str, ...]) -> str:
    """Return as whom one signs, and whom the protocol lets sign."""
    fields = {"name": me.name, "role": _(me.role.value)}
    if not may_sign:
        return _("{name}, {role}").format(**fields)
    roles = ", ".join(_(role) for role in may_sign)
    return _("{name}, {role}; this protocol is signed by: {roles}").format(
        roles=roles, **fields
    )
