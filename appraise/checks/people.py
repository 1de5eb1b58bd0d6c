"""Checks of the people behind the report."""

from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks
from appraise.checks.text import covers, everything, listed, mentions, same_name, says_nothing, unknown_ids
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, given
from appraise.model.place import Place
from appraise.records.assignment import PEOPLE, Person
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.vocabulary import PersonRole, Use

APPRAISERS = (PersonRole.APPRAISER, PersonRole.CO_APPRAISER)


def _id(person: Person) -> tuple[str, ...]:
    return (person.id,) if given(person.id) else ()


def _signers(context: CheckContext) -> list[Person]:
    return [one for one in context.job.people if one.role in APPRAISERS and one.signs is True]


@check("PPL-01")
def nobody_signs(context: CheckContext) -> Iterator[Finding]:
    """At least one appraiser signs the certification."""
    if not _signers(context):
        yield finding("PPL-01", Place(PEOPLE.name))


@check("PPL-02")
def columns_of_the_role(context: CheckContext) -> Iterator[Finding]:
    """What a role asks for is given: an appraiser's qualifications and categories, an assistant's help."""
    for place, column, person in blanks(context, "people"):
        yield finding("PPL-02", place, *_id(person), role=person.role, heading=column.heading)


@check("PPL-03")
def category_without_qualification(context: CheckContext) -> Iterator[Finding]:
    """Each item's category of property is one that a signing appraiser is qualified for."""
    qualified = [category for person in _signers(context) for category in listed(person.categories)]
    if qualified:
        for item in context.items.values():
            if given(item.category) and not any(same_name(item.category, category) for category in qualified):
                place = place_of(ITEMS, item, "category")
                yield finding("PPL-03", place, str(item.id), found=item.category, qualified="; ".join(qualified))


@check("PPL-04")
def inspected_by_nobody(context: CheckContext) -> Iterator[Finding]:
    """Each inspected item was inspected by somebody named."""
    if context.job.people:
        for key, item in context.items.items():
            if given(item.inspected_on) and not any(covers(one.inspected, key) for one in context.job.people):
                yield finding("PPL-04", place_of(ITEMS, item, "inspected_on"), key, found=item.inspected_on.isoformat())


@check("PPL-05")
def inspected_unknown_item(context: CheckContext) -> Iterator[Finding]:
    """A person has inspected only items that are on the schedule."""
    for person in context.job.people:
        for entry in unknown_ids(person.inspected, context.items):
            yield finding("PPL-05", place_of(PEOPLE, person, "inspected"), *_id(person), found=entry)


@check("PPL-06", *(use for use in Use if use is not Use.DONATION))
def interest_disclosed(context: CheckContext) -> Iterator[Finding]:
    """An interest in the property or the parties is weighed before signing."""
    for person in context.job.people:
        if given(person.interest) and not says_nothing(person.interest):
            yield finding("PPL-06", place_of(PEOPLE, person, "interest"), *_id(person), found=person.interest)


@check("PPL-07", Use.DONATION)
def interest_in_a_gift(context: CheckContext) -> Iterator[Finding]:
    """The appraiser of a contribution has no tie to the donor, the donee or the donor's acquisition."""
    for person in context.job.people:
        if person.role in APPRAISERS and given(person.interest) and not says_nothing(person.interest):
            yield finding("PPL-07", place_of(PEOPLE, person, "interest"), *_id(person), found=person.interest)


@check("PPL-08", Use.DONATION)
def tax_number_missing(context: CheckContext) -> Iterator[Finding]:
    """Each signer of an appraisal of a contribution gives a tax number."""
    for person in _signers(context):
        if person.tax_number is BLANK:
            yield finding("PPL-08", place_of(PEOPLE, person, "tax_number"), *_id(person))


@check("PPL-09", Use.DONATION)
def address_missing(context: CheckContext) -> Iterator[Finding]:
    """Each signer of an appraisal of a contribution gives an address."""
    for person in _signers(context):
        if person.address is BLANK:
            yield finding("PPL-09", place_of(PEOPLE, person, "address"), *_id(person))


@check("PPL-10", *(use for use in Use if use is not Use.DONATION))
def tax_number_not_needed(context: CheckContext) -> Iterator[Finding]:
    """A tax number is typed only where the use needs it."""
    for person in context.job.people:
        if given(person.tax_number):
            # The number itself is kept out of the finding: findings are printed and passed on.
            yield finding("PPL-10", place_of(PEOPLE, person, "tax_number"), *_id(person))


@check("PPL-11", Use.EXPERT)
def expert_record(context: CheckContext) -> Iterator[Finding]:
    """An expert's qualifications list publications and testimony, or say that there are none."""
    for person in _signers(context):
        if given(person.credentials):
            lacking = [
                word
                for word, stem in (("publications", "publi"), ("testimony", "testi"))
                if not mentions(person.credentials, stem)
            ]
            if lacking:
                place = place_of(PEOPLE, person, "credentials")
                yield finding("PPL-11", place, *_id(person), found=" and ".join(lacking))


@check("PPL-12")
def inspected_and_not(context: CheckContext) -> Iterator[Finding]:
    """An item said not to be inspected is not claimed as inspected by anybody."""
    for item in context.items.values():
        if given(item.not_inspected_reason) and item.inspected_on is BLANK:
            for person in context.job.people:
                if covers(person.inspected, str(item.id)):
                    place = place_of(PEOPLE, person, "inspected")
                    yield finding("PPL-12", place, *_id(person), str(item.id), found=str(person.inspected))


@check("PPL-13")
def inspected_by_no_signer(context: CheckContext) -> Iterator[Finding]:
    """Each inspected item was seen by one who signs."""
    signers = _signers(context)
    for key, item in context.items.items():
        seen_by = [one for one in context.job.people if covers(one.inspected, key)]
        if given(item.inspected_on) and seen_by and signers and not any(one in signers for one in seen_by):
            names = ", ".join(str(one.name) for one in seen_by if given(one.name))
            yield finding("PPL-13", place_of(ITEMS, item, "inspected_on"), key, found=names)


@check("PPL-14")
def all_and_single_items(context: CheckContext) -> Iterator[Finding]:
    """One who inspected everything did not at the same time list single items."""
    for person in context.job.people:
        if not everything(person.inspected) and any(everything(entry) for entry in listed(person.inspected)):
            yield finding("PPL-14", place_of(PEOPLE, person, "inspected"), *_id(person), found=str(person.inspected))
