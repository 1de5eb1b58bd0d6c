"""Cases of the checks in `appraise/checks/people.py`."""

from support.checks import (
    Case,
    added,
    changed,
    copied,
    donation_job,
    expert_job,
)

from appraise.model.missing import BLANK, UNKNOWN
from appraise.model.place import Place
from appraise.records.assignment import Person
from appraise.records.declare import filled
from appraise.records.job import Job
from appraise.records.vocabulary import (
    PersonRole,
)


def covered(job: Job) -> Job:
    """The second item, not inspected, is covered by an extraordinary assumption."""
    return copied(job, "assumptions", 0, id="A2", items="A01", text="The condition is taken to be as the owner says.")


CASES = [
    Case(
        "PPL-01",
        lambda j: changed(j, "people", 0, signs=False),
        lambda j: changed(j, "people", 0, role=PersonRole.CO_APPRAISER),
        Place("People"),
    ),
    Case(
        "PPL-02",
        lambda j: added(j, "people", filled(Person, row=3, id="P2", role=PersonRole.ASSISTANT, inspected="none")),
        lambda j: added(
            j,
            "people",
            filled(Person, row=3, id="P2", role=PersonRole.ASSISTANT, inspected="none", assistance="photography"),
        ),
        Place("People", 3, "assistance"),
        subjects=("P2",),
    ),
    Case(
        "PPL-03",
        lambda j: changed(j, "people", 0, categories="fretted instruments"),
        lambda j: changed(j, "people", 0, categories="Fretted Instruments; AMPLIFIERS"),
        Place("Items", 3, "category"),
        "amplifiers",
        ("A01",),
    ),
    Case(
        "PPL-04",
        lambda j: changed(j, "people", 0, inspected="G01"),
        lambda j: changed(j, "people", 0, inspected="G01; A01"),
        Place("Items", 3, "inspected_on"),
        "2025-01-20",
        ("A01",),
    ),
    Case(
        "PPL-05",
        lambda j: changed(j, "people", 0, inspected="G01; A01; A1"),
        lambda j: changed(j, "people", 0, inspected="A01, G01"),
        Place("People", 2, "inspected"),
        "A1",
        ("P1",),
    ),
    Case(
        "PPL-06",
        lambda j: changed(j, "people", 0, interest="sold G01 to the decedent"),
        lambda j: changed(j, "people", 0, interest="None."),
        Place("People", 2, "interest"),
        "sold G01 to the decedent",
        ("P1",),
    ),
    Case(
        "PPL-07",
        lambda j: changed(j, "people", 0, interest="sold G01 to the donor"),
        lambda j: changed(j, "people", 0, interest="none"),
        Place("People", 2, "interest"),
        "sold G01 to the donor",
        ("P1",),
        donation_job,
    ),
    Case(
        "PPL-08",
        lambda j: changed(j, "people", 0, tax_number=BLANK),
        lambda j: changed(j, "people", 0, role=PersonRole.CO_APPRAISER),
        Place("People", 2, "tax_number"),
        "",
        ("P1",),
        donation_job,
    ),
    Case(
        "PPL-09",
        lambda j: changed(j, "people", 0, address=BLANK),
        lambda j: copied(j, "people", 0, id="P2", role=PersonRole.INSPECTOR, signs=False, address=BLANK),
        Place("People", 2, "address"),
        "",
        ("P1",),
        donation_job,
    ),
    Case(
        "PPL-10",
        lambda j: changed(j, "people", 0, tax_number="00-0000000"),
        lambda j: changed(j, "people", 0, tax_number=UNKNOWN),
        Place("People", 2, "tax_number"),
        "",
        ("P1",),
    ),
    Case(
        "PPL-11",
        lambda j: changed(j, "people", 0, credentials="Twenty years; publications: none."),
        lambda j: changed(j, "people", 0, credentials="Published twice; testified once."),
        Place("People", 2, "credentials"),
        "testimony",
        ("P1",),
        expert_job,
    ),
    Case(
        "PPL-13",
        lambda j: copied(
            changed(j, "people", 0, inspected="G01"),
            "people",
            0,
            id="P2",
            name="L. Orrin",
            role=PersonRole.INSPECTOR,
            signs=False,
            inspected="A01",
        ),
        lambda j: copied(
            j, "people", 0, id="P2", name="L. Orrin", role=PersonRole.INSPECTOR, signs=False, inspected="A01"
        ),
        Place("Items", 3, "inspected_on"),
        "L. Orrin",
        ("A01",),
    ),
    Case(
        "PPL-12",
        lambda j: changed(
            covered(j), "items", 1, inspected_on=BLANK, not_inspected_reason="in store, owner did not open it"
        ),
        lambda j: changed(
            changed(covered(j), "people", 0, inspected="G01"),
            "items",
            1,
            inspected_on=BLANK,
            not_inspected_reason="in store, owner did not open it",
        ),
        Place("People", 2, "inspected"),
        "all",
        ("P1", "A01"),
    ),
    Case(
        "PPL-14",
        lambda j: changed(j, "people", 0, inspected="all; G01; A01"),
        lambda j: changed(j, "people", 0, inspected=" All "),
        Place("People", 2, "inspected"),
        "all; G01; A01",
        ("P1",),
    ),
]
