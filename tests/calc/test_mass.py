"""Mass of conductors: published masses of stranded wire, and the same written a second time."""
from curtilage.calc.fault.records import Run
from curtilage.calc.mass import conductor_mass, feeder_mass, run_mass
from curtilage.editions import Edition
from hypothesis import given, settings
from hypothesis import strategies as st
from plainly_mass import MILS, kilograms
import pytest

ED = Edition.load("nec2023")
CU, AL = ED.view("cu-pvc"), ED.view("al-pvc")


@pytest.mark.parametrize(("m", "size", "pounds"), [
    (CU, "500", 1544), (CU, "4/0", 653.3), (CU, "1/0", 325.8),     # ASTM B8 Table 1, from memory
    (AL, "2000", 1873),                                           # ASTM B231 Table 1 (print of 2012, read), class A
])
def test_masses_of_the_standards(m, size, pounds):
    assert conductor_mass(1, size, 1000.0, m).pounds == pytest.approx(pounds, rel=1.2e-3)


@settings(max_examples=60)
@given(st.integers(1, 24), st.sampled_from(sorted(set(MILS) & set(CU.cmil))), st.floats(1, 5000), st.sampled_from(["cu", "al"]))
def test_the_second_writing_agrees(n, size, feet, metal):
    ours = conductor_mass(n, size, feet, ED.view(f"{metal}-pvc"))
    assert ours.kilograms == pytest.approx(kilograms(n, size, feet, metal), rel=2e-5)
    assert ours.kilograms == pytest.approx(ours.pounds / 2.2046226)


def test_a_run_is_its_conductors():
    """Two sets of two lines, a neutral and a ground: the pieces weighed one by one."""
    parts = [(4, "500"), (2, "350"), (2, "1")]
    weighed = sum(kilograms(n, s, 265.0, "al") for n, s in parts)
    assert run_mass(2, "500", "350", "1", 265.0, AL).kilograms == pytest.approx(weighed, rel=2e-5)
    assert feeder_mass(Run("F", 2, "500", "350", "1", 265.0), AL).kilograms == pytest.approx(weighed, rel=2e-5)
