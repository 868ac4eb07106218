"""The form of a diagnosis proposes a protocol, and never moves a case to another by itself."""

import pytest

from teamrehab.desktop.athlete.diagnosis_form import DiagnosisForm
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.domain.injuries import Certainty, Diagnosis
from teamrehab.protocols import injury_catalogue, load_protocols
from tests.builders import athlete, day


@pytest.mark.parametrize(
    ("follows", "proposed"),
    [
        ("lower_limb_starter", "lower_limb_starter"),
        ("", "hamstring_strain"),
        ("calf_strain", "hamstring_strain"),
    ],
)
def test_a_diagnosis_opened_again_proposes_the_protocol_the_case_follows(
    qtbot, follows, proposed
):
    before = Diagnosis(
        case_id="c1",
        athlete_id="a1",
        on=day(1),
        injury="hamstring_strain",
        certainty=Certainty.SUSPECTED,
    )
    occasion = Occasion(athlete=athlete(), today=day(2), new_id=str, case_id="c1")
    form = DiagnosisForm(occasion, injury_catalogue(), load_protocols(), before, follows)
    qtbot.addWidget(form)
    assert form.protocol.value == proposed
