"""Checks of the items: identification, condition, history, materials."""

from collections import defaultdict
from collections.abc import Iterator

from appraise.checks.context import CheckContext
from appraise.checks.registry import check
from appraise.checks.required import blanks, records_of
from appraise.checks.text import mentions, plain, plain_serial, same_name, says_nothing, word_count
from appraise.model.finding import Finding, finding
from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, given
from appraise.records.declare import ColumnKind, place_of
from appraise.records.items import HISTORY, INSPECTION, ITEMS, Item
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Attribution, Family, History, Use

CONDITION = ("structure", "finish_condition", "wear", "playability")
#: Sheets whose texts a report prints in the appraiser's own voice.
VOICED = ("assignment", "value_terms", "items", "parts", "inspection", "opinions", "assumptions", "market_notes")
#: Where a person may rightly speak of authenticity: the owner's words, a marking word for word.
NOT_OURS = ("owner_statement", "markings", "title_evidence")


@check("ITM-01")
def columns_of_the_item(context: CheckContext) -> Iterator[Finding]:
    """An item has its inspection day or a reason, and a grade where percents bring sales to it."""
    for place, column, item in blanks(context, "items"):
        yield finding("ITM-01", place, str(item.id), heading=column.heading, condition=column.required)


@check("ITM-02")
def serial_twice(context: CheckContext) -> Iterator[Finding]:
    """No two items of one maker have the same serial, unless they are one set."""
    first: dict[tuple[str, str], Item] = {}
    for item in context.items.values():
        if given(item.serial) and plain_serial(item.serial) and not says_nothing(item.serial):
            other = first.setdefault((plain(item.maker), plain_serial(item.serial)), item)
            in_one_set = given(item.set_id) and same_name(item.set_id, other.set_id)
            if other is not item and not in_one_set:
                place = place_of(ITEMS, item, "serial")
                yield finding("ITM-02", place, str(other.id), str(item.id), found=item.serial)


@check("ITM-03")
def number_twice(context: CheckContext) -> Iterator[Finding]:
    """Each printed number stands for one item."""
    first: dict[str, Item] = {}
    for item in context.items.values():
        if given(item.number):
            other = first.setdefault(plain(item.number) or item.number, item)
            if other is not item:
                yield finding("ITM-03", place_of(ITEMS, item, "number"), str(other.id), str(item.id), found=item.number)


@check("ITM-04")
def restricted_material(context: CheckContext) -> Iterator[Finding]:
    """A restricted material has a note on permits or papers."""
    for item in context.items.values():
        stated = item.restricted_materials
        if given(stated) and not _none_seen(stated) and item.permits is BLANK:
            yield finding("ITM-04", place_of(ITEMS, item, "permits"), str(item.id), found=stated)


@check("ITM-05")
def restricted_material_unknown(context: CheckContext) -> Iterator[Finding]:
    """A material that could not be told is covered by a sentence."""
    for item in context.items.values():
        unsure = item.restricted_materials in (UNKNOWN, NOT_INSPECTED)
        if unsure and item.permits is BLANK:
            found = str(getattr(item.restricted_materials, "value", ""))
            yield finding("ITM-05", place_of(ITEMS, item, "permits"), str(item.id), found=found)


@check("ITM-06")
def amplifier_not_marked(context: CheckContext) -> Iterator[Finding]:
    """A tube amplifier is marked as mains-powered."""
    for item in context.items.values():
        if item.family is Family.TUBE_AMPLIFIER and item.mains_powered in (BLANK, False):
            found = "no" if item.mains_powered is False else ""
            yield finding("ITM-06", place_of(ITEMS, item, "mains_powered"), str(item.id), found=found)


@check("ITM-07")
def mains_without_caution(context: CheckContext) -> Iterator[Finding]:
    """A mains-powered item has an inspection line on its mains safety."""
    for item in context.items.values():
        if item.mains_powered is True:
            looked_at = [line.line for line in context.inspection_of.get(str(item.id), ())]
            if not any(mentions(line, "mains", "power", "cord", "electrical", "fuse") for line in looked_at):
                yield finding("ITM-07", place_of(ITEMS, item, "mains_powered"), str(item.id), found="yes")


@check("ITM-08")
def nothing_to_tell_it_by(context: CheckContext) -> Iterator[Finding]:
    """An item can be told from its like by a serial, markings or dimensions."""
    for item in context.items.values():
        told = [one for one in (item.serial, item.markings, item.dimensions) if given(one) and not says_nothing(one)]
        if not told:
            yield finding("ITM-08", place_of(ITEMS, item, "dimensions"), str(item.id))


@check("ITM-09")
def attribution_against_maker(context: CheckContext) -> Iterator[Finding]:
    """The strength of the identification agrees with the maker stated."""
    for item in context.items.values():
        if given(item.attribution):
            unknown = item.maker is UNKNOWN or bool(mentions(item.maker, "unknown", "unidentified"))
            claims = item.attribution in (Attribution.DOCUMENTED, Attribution.MARKS_AND_FEATURES)
            if (unknown and claims) or (
                not unknown and given(item.maker) and item.attribution is Attribution.UNKNOWN_MAKER
            ):
                maker = str(item.maker) if given(item.maker) else "unknown"
                place = place_of(ITEMS, item, "attribution")
                yield finding("ITM-09", place, str(item.id), found=item.attribution, maker=maker)


@check("ITM-10")
def attribution_without_basis(context: CheckContext) -> Iterator[Finding]:
    """An identification by maker says what it rests on."""
    for item in context.items.values():
        claims = given(item.attribution) and item.attribution not in (
            Attribution.UNKNOWN_MAKER,
            Attribution.MANNER_OF,
        )
        if claims and (item.attribution_reason is BLANK or says_nothing(item.attribution_reason)):
            place = place_of(ITEMS, item, "attribution_reason")
            yield finding("ITM-10", place, str(item.id), found=str(item.attribution))


@check("ITM-11")
def theft_check_open(context: CheckContext) -> Iterator[Finding]:
    """The stolen-goods check is stated, if only as not done."""
    for item in context.items.values():
        if item.theft_check is BLANK:
            yield finding("ITM-11", place_of(ITEMS, item, "theft_check"), str(item.id))


@check("ITM-12")
def condition_not_inspected(context: CheckContext) -> Iterator[Finding]:
    """What was not inspected has its reason, in the line itself or for the item."""
    for item in context.items.values():
        for key in CONDITION:
            if getattr(item, key) is NOT_INSPECTED and item.not_inspected_reason is BLANK:
                heading = ITEMS.column(key).heading
                place = place_of(ITEMS, item, key)
                yield finding("ITM-12", place, str(item.id), found="not inspected", heading=heading)


@check("ITM-13")
def line_not_inspected(context: CheckContext) -> Iterator[Finding]:
    """An inspection line not looked at has its reason."""
    for line in context.job.inspection:
        if line.found is NOT_INSPECTED and line.reason is BLANK and given(line.item):
            looked_at = line.line if given(line.line) else ""
            place = place_of(INSPECTION, line, "reason")
            yield finding("ITM-13", place, line.item, found="not inspected", line=looked_at)


@check("ITM-14")
def history_silent(context: CheckContext) -> Iterator[Finding]:
    """Each item's own history is told, if only as none known."""
    for key, item in context.items.items():
        if key not in context.history_of:
            yield finding("ITM-14", place_of(ITEMS, item, "id"), key, found=key)


@check("ITM-15")
def none_known_and_known(context: CheckContext) -> Iterator[Finding]:
    """'None known' stands alone."""
    for key, lines in context.history_of.items():
        for line in lines:
            if line.kind is History.NONE_KNOWN and len(lines) > 1:
                yield finding("ITM-15", place_of(HISTORY, line, "kind"), key, found=line.kind)


@check("ITM-16")
def dealing_not_analysed(context: CheckContext) -> Iterator[Finding]:
    """An earlier sale, offer, listing or contract of the subject is analysed."""
    for line in context.job.history:
        dealt = line.kind in (History.SALE, History.OFFER, History.LISTING, History.CONTRACT)
        if dealt and line.remark is BLANK and given(line.item):
            yield finding("ITM-16", place_of(HISTORY, line, "remark"), line.item, found=str(line.kind))


@check("ITM-17")
def word_authentic(context: CheckContext) -> Iterator[Finding]:
    """The word 'authentic' is not used of an object that was not tested."""
    tested = {line.item for line in context.job.inspection if mentions(line.line, "laborator", "test")}
    for name in VOICED:
        sheet = SHEETS[name]
        keys = [
            column.key
            for column in sheet.columns
            if column.kind in (ColumnKind.TEXT, ColumnKind.LONG_TEXT) and column.key not in NOT_OURS
        ]
        for record in records_of(context, name):
            item = getattr(record, "item", record.id if name == "items" else None)
            if item in tested:
                continue
            for key in keys:
                word = mentions(getattr(record, key), "authentic", "genuine")
                if word:
                    about = (item,) if isinstance(item, str) else ()
                    yield finding("ITM-17", place_of(sheet, record, key), *about, found=word)


@check("ITM-18")
def owners_story_as_provenance(context: CheckContext) -> Iterator[Finding]:
    """The owner's story is not repeated as provenance."""
    for item in context.items.values():
        if given(item.provenance) and same_name(item.provenance, item.owner_statement):
            yield finding("ITM-18", place_of(ITEMS, item, "provenance"), str(item.id), found=item.provenance)


@check("ITM-19", Use.ESTATE)
def room_open(context: CheckContext) -> Iterator[Finding]:
    """An estate in the United States is listed room by room."""
    if context.country == "US":
        for item in context.items.values():
            if item.room is BLANK:
                yield finding("ITM-19", place_of(ITEMS, item, "room"), str(item.id))


@check("ITM-20")
def description_short(context: CheckContext) -> Iterator[Finding]:
    """A description is long enough to tell an object from its like."""
    least = context.settings.description_words
    for item in context.items.values():
        if given(item.description) and word_count(item.description) < least:
            place = place_of(ITEMS, item, "description")
            yield finding("ITM-20", place, str(item.id), found=item.description, least=least)


@check("ITM-21")
def set_of_one(context: CheckContext) -> Iterator[Finding]:
    """A set has more than one piece."""
    sets: dict[str, list[Item]] = defaultdict(list)
    for item in context.items.values():
        if given(item.set_id):
            sets[plain(item.set_id)].append(item)
    for items in sets.values():
        one = items[0]
        if len(items) == 1 and (one.quantity is BLANK or one.quantity == 1):
            yield finding("ITM-21", place_of(ITEMS, one, "set_id"), str(one.id), found=str(one.set_id))


@check("ITM-22")
def serial_of_several(context: CheckContext) -> Iterator[Finding]:
    """A line for several objects does not carry one serial."""
    for item in context.items.values():
        several = given(item.quantity) and item.quantity > 1
        if several and given(item.serial) and plain(item.serial) and not says_nothing(item.serial):
            yield finding(
                "ITM-22", place_of(ITEMS, item, "serial"), str(item.id), found=item.serial, quantity=item.quantity
            )


def _none_seen(stated: str) -> bool:
    return says_nothing(stated) or stated.strip().lower().startswith("none")
