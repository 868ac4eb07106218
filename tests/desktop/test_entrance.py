"""Start page and the form for a new casebook."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QPushButton

from teamrehab.desktop.create_page import LONGEST_NAME, SHORTEST_PASSPHRASE, CreatePage
from teamrehab.desktop.start_page import StartPage
from teamrehab.desktop.unlock_page import UnlockPage
from teamrehab.domain.athletes import Role

GOOD = "four words that nobody owns"


@pytest.fixture
def form(qtbot, tmp_path):
    page = CreatePage()
    qtbot.addWidget(page)
    page.team.setText(" Harbour Rovers ")
    page.name.setText("Ines Duarte")
    page.role.show_value(Role.PHYSIO)
    page.passphrase.setText(GOOD)
    page.again.setText(GOOD)
    page.folder.setText(str(tmp_path / "new"))
    return page


def test_a_whole_form_is_wished_for_as_typed(qtbot, form, tmp_path):
    with qtbot.waitSignal(form.wished) as told:
        form.make.click()
    wish = told.args[0]
    assert (wish.team, wish.name, wish.role) == ("Harbour Rovers", "Ines Duarte", Role.PHYSIO)
    assert (wish.passphrase, wish.folder) == (GOOD, tmp_path / "new")


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("team", "", "Type the name of the team."),
        ("team", "x" * (LONGEST_NAME + 1), "121 letters typed"),
        ("team", "Harbour\u0007Rovers", "without line breaks"),
        ("name", "  ", "Type your name"),
        ("sport", "x" * 10_000, "10000 letters typed"),
        ("passphrase", "", "Type a passphrase."),
        ("passphrase", "x" * (SHORTEST_PASSPHRASE - 1), "Only 11 letters; use at least 12."),
        ("again", GOOD + " ", "differ"),
        ("folder", "", "Choose a new, empty folder."),
    ],
)
def test_each_trouble_is_a_sentence_beside_its_field_and_nothing_is_lost(
    qtbot, form, field, typed, said
):
    getattr(form, field).setText(typed)
    with qtbot.assertNotEmitted(form.wished):
        form.make.click()
    assert said in form.fields[field].complaint
    assert getattr(form, field).text() == typed


def test_no_role_is_taken_for_granted(qtbot, form):
    form.role.show_value(None)
    with qtbot.assertNotEmitted(form.wished):
        form.make.click()
    assert form.fields["role"].complaint


def test_coming_back_to_the_form_finds_no_passphrase(form):
    form.begin()
    assert form.passphrase.text() == form.again.text() == ""
    assert form.team.text() == " Harbour Rovers "


def test_passphrases_are_never_shown(form, qtbot, tmp_path):
    unlock = UnlockPage(tmp_path, ["Ines Duarte"])
    qtbot.addWidget(unlock)
    for field in (form.passphrase, form.again, unlock.passphrase):
        assert field.echoMode() is QLineEdit.EchoMode.Password


def test_a_single_key_owner_is_chosen_already(qtbot, tmp_path):
    page = UnlockPage(tmp_path, ["Ines Duarte"])
    qtbot.addWidget(page)
    page.passphrase.setText(GOOD)
    with qtbot.waitSignal(page.unlocked) as told:
        page.unlock.click()
    assert told.args == ["Ines Duarte", GOOD]


def shown(qtbot, folders):
    page = StartPage()
    qtbot.addWidget(page)
    page.show_recent(folders)
    page.begin()
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    return page


def test_enter_opens_the_casebook_the_cursor_starts_on_or_is_moved_to(qtbot, tmp_path):
    first, second = tmp_path / "harbour", tmp_path / "under-19"
    page = shown(qtbot, [str(first), str(second)])
    with qtbot.waitSignal(page.folder_chosen) as told:
        qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Return)
    assert told.args == [first]
    qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Tab)
    with qtbot.waitSignal(page.folder_chosen) as told:
        qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Enter)
    assert told.args == [second]


def test_enter_opens_the_demo_where_nothing_was_opened_before(qtbot):
    page = shown(qtbot, [])
    with qtbot.waitSignal(page.demo_asked):
        qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Return)
    qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Tab)
    with qtbot.waitSignal(page.new_asked), qtbot.assertNotEmitted(page.demo_asked):
        qtbot.keyClick(page.focusWidget(), Qt.Key.Key_Return)


def test_recent_casebooks_are_told_by_folder_and_can_be_opened(qtbot, tmp_path):
    page = StartPage()
    qtbot.addWidget(page)
    first, second = tmp_path / "harbour & co", tmp_path / "under-19"
    page.show_recent([str(first), str(second)])
    buttons = [b for b in page.findChildren(QPushButton) if b.property("folder")]
    assert [b.text().split("   ")[0] for b in buttons] == ["harbour && co", "under-19"]
    with qtbot.waitSignal(page.folder_chosen) as told:
        buttons[1].click()
    assert told.args == [second]
    page.show_recent([])
    assert not page._recent.count()
