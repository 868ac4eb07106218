"""The dashed line of a graph is what the next stage asks of the injured leg."""

from teamrehab.desktop.athlete.graphs import Graphs
from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.injuries import Side
from teamrehab.domain.protocol import Criterion
from tests.builders import day, history
from tests.domain.evenings import raises


def target(value, side, knee="straight"):
    asked = Criterion(
        key="target",
        check="raises_to_target",
        sentence="Raises to the target",
        parameters={"repetitions": 25, "percent": 90, "knee": knee},
        source="common practice",
    )
    own = Evidence(measure="Target", on=day(-30), value=value, side=side)
    done = Evidence(measure="Heel raises", on=day(18), value=21, side=side, test_id="t1")
    return CriterionResult(criterion=asked, verdict=Verdict.NOT_MET, evidence=(done, own))


def said(qtbot, *results):
    graphs = Graphs()
    qtbot.addWidget(graphs)
    graphs.show()
    graphs.show_case(history(raises(18)), results, day(20))
    qtbot.waitUntil(lambda: "raises" in graphs.panels)
    return graphs.panels["raises"].as_text()


def test_the_own_target_of_the_injured_leg_is_the_line_and_not_that_of_the_other(qtbot):
    both = (target(33.0, Side.RIGHT), target(34.0, Side.LEFT))
    asked = CriterionResult(
        criterion=both[0].criterion,
        verdict=Verdict.NOT_MET,
        evidence=(*both[0].evidence, *both[1].evidence),
    )
    assert "Needed: 34 raises." in said(qtbot, asked)


def test_a_target_of_the_bent_knee_is_no_line_of_the_straight_one(qtbot):
    assert "Needed" not in said(qtbot, target(34.0, Side.LEFT, knee="bent"))
    assert "Needed: 34 raises." in said(qtbot, target(34.0, Side.LEFT))
