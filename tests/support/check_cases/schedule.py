"""Cases of the checks in `appraise/checks/schedule.py`."""

from datetime import date

from support.checks import RRV, Case, D, added, changed, yearly_job

from appraise.model.place import Place
from appraise.records.declare import filled
from appraise.records.items import Renaming
from appraise.records.job import Job
from appraise.records.vocabulary import Treatment
from appraise.records.yearly import LineTreatment


def treated(job: Job, item: str, treatment: Treatment = Treatment.ADDED, **values: object) -> Job:
    """One more line of Treatments."""
    row = len(job.treatments) + 2
    return added(
        job, "treatments", filled(LineTreatment, row=row, item=item, value_type=RRV, treatment=treatment, **values)
    )


def all_treated() -> Job:
    return treated(treated(yearly_job(), "G01"), "A01")


def renamed(job: Job, old: str, new: str) -> Job:
    record = filled(Renaming, row=2, old=old, new=new, day=date(2024, 6, 30), reason="sold apart")
    return added(job, "renamings", record)


PRIOR = {"prior_day": date(2023, 11, 15), "prior_rounded": D(900)}

CASES = [
    Case(
        "SCH-01",
        lambda j: treated(treated(yearly_job(), "G01"), "A01", Treatment.PERCENT, **PRIOR),
        lambda j: treated(treated(yearly_job(), "G01"), "A01", Treatment.PERCENT, percent=D(0), **PRIOR),
        Place("Treatments", 3, "percent"),
        "",
        ("A01",),
    ),
    Case(
        "SCH-02",
        lambda j: renamed(j, "G01", "A01"),
        lambda j: renamed(j, "G00", "G01"),
        Place("Splits and joins", 2, "old"),
        "G01",
        ("G01",),
    ),
    Case(
        "SCH-03",
        lambda j: renamed(j, "G00", "G02"),
        lambda j: renamed(renamed(j, "G00", "G02"), "G02", "G01"),
        Place("Splits and joins", 2, "new"),
        "G02",
        ("G02",),
    ),
    Case(
        "SCH-04",
        lambda j: with_case(j, "Carved-top guitar with original case, sunburst"),
        lambda j: with_case(j, "Carved-top guitar without case, sunburst finish"),
        Place("Items", 3, "id"),
        "A01",
        ("G01", "A01"),
    ),
    Case(
        "SCH-05",
        lambda j: treated(yearly_job(), "G01"),
        lambda j: all_treated(),
        Place("Items", 3, "id"),
        "A01",
        ("A01",),
    ),
    Case(
        "SCH-06",
        lambda j: treated(treated(yearly_job(), "A01"), "G01", Treatment.REMOVED, removed_on=date(2024, 8, 1), **PRIOR),
        lambda j: treated(treated(yearly_job(), "G01"), "A01", Treatment.REMOVED, removed_on=date(2024, 8, 1), **PRIOR),
        Place("Treatments", 3, "treatment"),
        "removed",
        ("G01",),
    ),
]


def with_case(job: Job, description: str) -> Job:
    """The second item is the case of the first, which is described so."""
    job = changed(
        job, "items", 1, model="case for Consul 17", set_id="ARCH", description="Case for G01, black covering"
    )
    return changed(job, "items", 0, set_id="ARCH", description=description)
