"""The engine knows no muscle and no injury: their names stand in the data only."""

import re
from pathlib import Path

import pytest

from teamrehab.protocols import injury_catalogue

ENGINE = Path(__file__).parents[2] / "teamrehab"
EVERYDAY = {"calf", "calves", "hamstring", "achilles", "adductor", "quadriceps"}
EVERYDAY |= {"sprain", "strain", "tendinopathy", "groin"}
NOT_A_NAME = {"other"}

EXCEPTIONS = {
    # file: (word, why it is no name there)
    "desktop/group/view.py": ("foot", "the foot of a page"),
    "reports/paper/page.py": ("foot", "the foot of a page"),
    "reports/sheet_text.py": ("foot", "the foot of a page"),
    "domain/load.py": ("strain", "weekly load times monotony, a figure of that name"),
    "forecast/assumptions.py": ("sprain", "where a published figure comes from"),
}


def names() -> set[str]:
    kinds = injury_catalogue().values()
    found = {word.lower() for kind in kinds for word in (kind.key, kind.name)}
    muscles = [muscle for kind in kinds for muscle in kind.muscles]
    found |= {word.lower() for muscle in muscles for word in (muscle.key, muscle.name)}
    return found | {word.replace("_", " ") for word in found} | EVERYDAY


BANNED = re.compile("|".join(rf"\b{re.escape(n)}s?\b" for n in names() - NOT_A_NAME))


@pytest.mark.parametrize("said", ["# the calf muscle", "soleus = 1", "key == 'ankle_sprain'"])
def test_a_name_would_be_found(said):
    assert BANNED.search(said)


def test_no_file_of_the_engine_contains_the_name_of_a_muscle_or_an_injury():
    files = sorted(ENGINE.rglob("*.py"))
    assert len(files) > 250
    found = {
        (path.relative_to(ENGINE).as_posix(), word)
        for path in files
        for word in BANNED.findall(path.read_text(encoding="utf-8").lower())
    }
    assert found == {(file, word) for file, (word, _why) in EXCEPTIONS.items()}
