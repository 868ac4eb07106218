"""The invented squad: who they are. Any likeness to a real person is chance."""

from datetime import date

from teamrehab.domain.athletes import Athlete, Role, StaffMember

ANCHOR = date(2026, 10, 5)
"""The Monday all dates count from."""

STAFF = (
    StaffMember(staff_id="staff-1", name="Dr. Henrike Vossbeck", role=Role.DOCTOR),
    StaffMember(staff_id="staff-2", name="Tomasin Quayle", role=Role.PHYSIO),
    StaffMember(staff_id="staff-3", name="Oyelaran Brightwell", role=Role.PHYSIO),
)

_ALBUQUERQUE = "de Albuquerque e Figueiredo|Maria Aparecida da Conceição dos Santos"
_SQUAD = f"""
1|Vandenbroecke|Zoë|1996-05-14|goalkeeper|71.0|2022-07-04
2|Prydderch|Siân|1999-11-02|left back|60.5|2021-07-05
3|Lindqvist|Ebba|2000-02-19|centre back|68.0|2022-07-04
4|Lindquist|Maja|2002-08-30|centre back|66.5|2023-07-03
5|Karagözlü|Özlem|1995-01-25|midfield|61.0|2020-07-06
6|O'Brien-Łukasik|Dervla|1998-06-07|midfield|63.5|2021-07-05
7|Okparanta-Hale|Ngozi|2001-03-12|winger|58.5|2022-07-04
8|Adébáyò-Finch|Temilade|1997-09-21|midfield|62.0|2020-07-06
9|Peñalver Ibarrola|Marisol|1994-12-03|forward|64.0|2021-07-05
10|Papathanasopoulou|Eleftheria|1999-04-28|forward|59.0|2022-07-04
11|Thị Bích Ngân|Đoàn|2003-07-17|winger|53.5|2023-07-03
12|Szczebrzeska|Jagoda|1996-10-11|goalkeeper|70.5|2021-07-05
13|Hallgrímsdóttir|Þórunn|1995-08-08|centre back|69.0|2020-07-06
14|Çelebioğlu|İpek|2001-12-24|right back|57.5|2022-07-04
15|Bae-Hoshino|Ji-an|2000-05-05|midfield|55.0|2023-07-03
16|Nkemdirim|Adaeze|1998-02-14|forward|65.5|2022-07-04
17|Vasconcelos|Rafaela|1997-07-29|left back|58.0|2021-07-05
18|Ørskov-Dahl|Sigrid|1999-09-09|midfield|62.5|2022-07-04
19|{_ALBUQUERQUE}|2000-11-30|winger|57.0|2022-07-04
20|Māhutonga|Aroha|1996-03-03|centre back|72.5|2021-07-05
21|الحدّادي|نورهان|2002-04-16|forward|59.5|2023-07-03|Nourhane Al-Haddadi
22|Kowalczykowa-Ruiz|Inés|1993-06-18|midfield|60.0|2020-07-06
23|Mwangaza|Furaha|2001-01-08|right back|58.5|2022-07-04
24|Бережная|Злата|1998-12-12|goalkeeper|68.5|2022-07-04|Zlata Berezhnaya
25|Tränkmann|Wiebke|1994-04-01|centre back|67.5|2020-07-06
26|Ó Maolagáin|Caoilfhionn|2003-10-20|midfield|61.5|2024-07-01
27|Rakotondrasoa|Haingo|2004-02-27|winger|54.5|2024-07-01
28|Fernández-Yupanqui|Killa|2004-09-13|forward|56.0|2025-07-07
29|Jõesaar|Liisu|2005-05-23|left back|60.0|2025-07-07
30|Abernethy-Voss|Poppy|2009-01-15|midfield|55.5|2026-07-06
31|Bergströmová|Klára|2009-04-09|forward|57.0|2026-07-06
32|Tamarua|Leilani|2009-08-26|right back|56.5|2026-07-06
"""


def squad() -> tuple[Athlete, ...]:
    """Return the thirty-two athletes by number."""
    return tuple(_athlete(line.split("|")) for line in _SQUAD.strip().splitlines())


def _athlete(parts: list[str]) -> Athlete:
    number, surname, first, born, position, weight, joined = parts[:7]
    return Athlete(
        athlete_id=f"athlete-{int(number):02}",
        surname=surname,
        first_name=first,
        number=int(number),
        born=date.fromisoformat(born),
        position=position,
        joined=date.fromisoformat(joined),
        weight_g=round(float(weight) * 1000),
        printed_name=parts[7] if len(parts) > 7 else "",
    )
