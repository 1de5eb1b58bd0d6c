"""The command line: five verbs. It parses, prints and returns the exit code; the work is done in `jobs`."""

import gc
import os
import sys
from datetime import date, datetime
from pathlib import Path
from typing import Any, NoReturn

import click

from appraise import __version__
from appraise.progress import shown_progress

#: Exit codes: clean; stops found or draft with stops; wrong call; a file cannot be read or written; our own fault.
CLEAN, STOPS, WRONG_CALL, UNUSABLE_FILE, OWN_FAULT = 0, 1, 2, 3, 4

#: When to look for garbage: what is read stays, and looking through it every 700 objects costs a twentieth of the time.
GARBAGE = (50_000, 20, 50)

USES = ("insurance", "claim", "estate", "gift", "donation", "division", "sale", "expert", "yearly")


class Verbs(click.Group):
    """The group of verbs; an unknown verb is answered with the nearest one."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as fault:
            from difflib import get_close_matches

            near = get_close_matches(args[0], self.list_commands(ctx), n=1)
            hint = (
                f" Did you mean '{near[0]}'?" if near else f" The commands are: {', '.join(self.list_commands(ctx))}."
            )
            raise click.UsageError(f"No such command '{args[0]}'.{hint}", ctx) from fault


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="appraise", message="%(prog)s %(version)s")
def appraise() -> None:
    """Turn an appraiser's workbook into a formal report. Everything stays on this computer.

    \b
    Example:
      appraise new quenby.xlsx --use estate
      appraise check quenby.xlsx
      appraise report quenby.xlsx
    """


@appraise.command(short_help="Write a new workbook, or a library.")
@click.argument("workbook", required=False, type=click.Path(path_type=Path))
@click.option("--use", "use_name", type=click.Choice(USES), help="What the report is for.")
@click.option(
    "--family",
    "families",
    multiple=True,
    help="Begin an item of this family, with its inspection form; may be repeated.",
)
@click.option(
    "--library",
    type=click.Path(path_type=Path),
    help="Without WORKBOOK: write a blank library of your own tables. With it: the library the new workbook names.",
)
@click.option("--overwrite", is_flag=True, help="Replace an existing file.")
def new(
    workbook: Path | None, use_name: str | None, families: tuple[str, ...], library: Path | None, overwrite: bool
) -> None:
    """Write a new, structured WORKBOOK to fill in, or a library.

    \b
    Example: appraise new quenby.xlsx --use estate --family "archtop guitar"
             appraise new --library library.xlsx
    """
    from appraise.jobs.new import new_library, new_workbook

    if workbook is None:
        if library is None:
            raise click.UsageError("Name the workbook to write, or a library with --library.")
        written = new_library(library, overwrite=overwrite)
        click.echo(f"Written: {written}")
        click.echo("Name it in a job on sheet Assignment, line 'Library workbook'.")
        return
    if use_name is None:
        raise click.UsageError(f"Say what the report is for: --use {'|'.join(USES)}.")
    written = new_workbook(workbook, use_name, families, overwrite=overwrite, library=library)
    click.echo(f"Written: {written}")
    if not families:
        click.echo('No item is begun. With --family "flat-top guitar", or another, its inspection form is added.')
    click.echo(
        f"Open it in a spreadsheet program, fill it from sheet Start onwards, save, and run: appraise check {written}"
    )


@appraise.command(short_help="Find every fault of a workbook, with its cell.")
@click.argument("workbook", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON.")
@click.option("--explain", "item", metavar="ITEM", help="Print how the figures of one item came about, line by line.")
@click.option(
    "--findings", "findings_book", type=click.Path(path_type=Path), help="Also write the findings as a workbook."
)
@click.option(
    "--annotated",
    metavar="COPY",
    type=click.Path(path_type=Path),
    help="Also write a copy of the workbook with a comment at every faulty cell.",
)
@click.option(
    "--against",
    metavar="OLD",
    type=click.Path(path_type=Path),
    help="Instead: what was typed differently than in OLD, and which figures moved why.",
)
@click.option("--overwrite", is_flag=True, help="Replace an existing file that we did not write.")
def check(
    workbook: Path,
    as_json: bool,
    item: str | None,
    findings_book: Path | None,
    annotated: Path | None,
    against: Path | None,
    overwrite: bool,
) -> int:
    """Find every fault in WORKBOOK at once: sheet, cell, what is wrong, what to do.

    \b
    Example: appraise check quenby.xlsx --explain G01
    """
    from appraise.jobs.check import check_job

    if against is not None:
        return _compare(workbook, against, as_json=as_json)
    checked = check_job(workbook, today=_today(), progress=shown_progress())
    if item is not None:
        _echo_lines(checked.explain(item))
        return CLEAN
    if findings_book is not None:
        checked.write_findings(findings_book, overwrite=overwrite)
    if annotated is not None:
        _, said = checked.write_annotated(annotated, overwrite=overwrite)
        click.echo(said, err=True)
    if as_json:
        click.echo(checked.as_json())
    else:
        _echo_lines(checked.lines())
    return STOPS if checked.open_stops else CLEAN


@appraise.command(short_help="Write the report of a workbook.")
@click.argument("workbook", type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for the report. Default: beside the workbook, named after it.",
)
@click.option(
    "--draft", is_flag=True, help="Write a draft even with open stops: marked on every page, open points first."
)
@click.option("--pdf", is_flag=True, help="Also write a PDF, where LibreOffice is installed.")
@click.option(
    "--redacted", is_flag=True, help="Write a copy without owner, names, locations and serials, for quotes and reviews."
)
@click.option(
    "--template",
    type=click.Path(path_type=Path),
    help="Folder with your own house document and sections. Default: the one the workbook names.",
)
@click.option("--overwrite", is_flag=True, help="Replace existing files that we did not write.")
def report(
    workbook: Path, out: Path | None, draft: bool, pdf: bool, redacted: bool, template: Path | None, overwrite: bool
) -> int:
    """Write the formal report of WORKBOOK as a Word document.

    \b
    Example: appraise report quenby.xlsx --draft
    """
    from appraise.jobs.report import write_report

    done = write_report(
        workbook,
        out,
        draft=draft,
        overwrite=overwrite,
        today=_today(),
        progress=shown_progress(),
        template=template,
        pdf=pdf,
        redacted=redacted,
    )
    _echo_lines(done.lines())
    return STOPS if done.open_stops else CLEAN


@appraise.command(short_help="Write next year's workbook, or learn from past ones.")
@click.argument("workbooks", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--effective",
    metavar="DATE",
    type=click.DateTime(["%Y-%m-%d"]),
    help="The new effective date, as year-month-day.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for next year's workbook. Default: beside the workbook, named after it.",
)
@click.option("--processes", default=2, show_default=True, type=click.IntRange(1), help="Jobs worked on at a time.")
@click.option(
    "--track-record",
    metavar="PAGE",
    type=click.Path(path_type=Path),
    help="Instead: write how values stood to later prices (sheet Later sales), for your own eyes.",
)
@click.option(
    "--later-sales", metavar="CSV", type=click.Path(path_type=Path), help="With --track-record: further later sales."
)
@click.option(
    "--own-indexes",
    metavar="BOOK",
    type=click.Path(path_type=Path),
    help="Instead: write rows for the library's sheet Indexes from Repeat sales, and what they rest on.",
)
@click.option(
    "--period", type=click.Choice(["year", "quarter", "month"]), default="year", help="With --own-indexes: its periods."
)
@click.option("--overwrite", is_flag=True, help="Replace existing files that we did not write.")
def revalue(
    workbooks: tuple[Path, ...],
    effective: datetime | None,
    out: Path | None,
    processes: int,
    track_record: Path | None,
    later_sales: Path | None,
    own_indexes: Path | None,
    period: str,
    overwrite: bool,
) -> int:
    """Write next year's workbook from this year's, with a treatment proposed for every line.

    Of several WORKBOOKS, or a folder of them, each is done by itself, and a summary lists all.

    \b
    Example: appraise revalue quenby.xlsx --effective 2027-06-30
    """
    if track_record is not None or own_indexes is not None:
        return _learn(workbooks, track_record, later_sales, own_indexes, period, overwrite=overwrite)
    if effective is None:
        raise click.UsageError("Say the new effective date: --effective YEAR-MONTH-DAY.")
    if len(workbooks) == 1 and not workbooks[0].is_dir():
        from appraise.jobs.revalue import revalue_job

        one = revalue_job(
            workbooks[0], effective.date(), out, overwrite=overwrite, today=_today(), progress=shown_progress()
        )
        _echo_lines(one.lines())
        return STOPS if one.open_stops else CLEAN
    from appraise.jobs.revalue_many import revalue_many

    done = revalue_many(
        workbooks,
        effective.date(),
        out,
        overwrite=overwrite,
        today=_today(),
        processes=processes,
        progress=shown_progress(),
    )
    _echo_lines(done.lines())
    if done.traces:
        click.echo(f"The details are in {_logged(done.traces)}.", err=True)
    return done.code


def _learn(
    workbooks: tuple[Path, ...],
    track_record: Path | None,
    later_sales: Path | None,
    own_indexes: Path | None,
    period: str,
    *,
    overwrite: bool,
) -> int:
    """Write the track record or the own indexes of one job or library."""
    if len(workbooks) != 1:
        raise click.UsageError("Name one job or library with the sheet Later sales or Repeat sales.")
    stops = 0
    if track_record is not None:
        from appraise.jobs.track_record import write_track_record

        record = write_track_record(workbooks[0], track_record, later_sales, overwrite=overwrite)
        _echo_lines(record.lines())
        stops += record.open_stops
    if own_indexes is not None:
        from appraise.jobs.own_index import write_own_indexes

        months = {"year": 12, "quarter": 3, "month": 1}[period]
        indexes = write_own_indexes(workbooks[0], own_indexes, months=months, overwrite=overwrite)
        _echo_lines(indexes.lines())
        stops += indexes.open_stops
    return STOPS if stops else CLEAN


@appraise.command(short_help="Pack all a report rests on, or check such a file.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--verify", is_flag=True, help="Check a workfile instead: every hash, and every figure computed anew.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for the workfile. Default: beside the workbook, named after it.",
)
@click.option("--draft", is_flag=True, help="Pack a draft, even with open stops.")
@click.option(
    "--template",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Folder with your own templates. Default: the one the workbook names, if any.",
)
@click.option("--overwrite", is_flag=True, help="Replace an existing file that we did not write.")
def workfile(file: Path, verify: bool, out: Path | None, draft: bool, template: Path | None, overwrite: bool) -> int:
    """Pack all that the report of a workbook rests on into one sealed FILE, or check such a file.

    \b
    Example: appraise workfile quenby.xlsx
             appraise workfile --verify quenby/quenby-workfile.zip
    """
    from appraise.jobs.workfile import pack_workfile, verify_workfile

    if verify:
        checked = verify_workfile(file)
        _echo_lines(checked.lines())
        return STOPS if checked.faults else CLEAN
    done = pack_workfile(
        file,
        out,
        draft=draft,
        overwrite=overwrite,
        today=_today(),
        progress=shown_progress(),
        template=template,
    )
    _echo_lines(done.lines())
    return STOPS if done.open_stops else CLEAN


def _compare(new: Path, old: Path, *, as_json: bool) -> int:
    from appraise.jobs.compare import compare_jobs

    compared = compare_jobs(new, old, today=_today())
    if as_json:
        click.echo(compared.as_json())
    else:
        _echo_lines(compared.lines())
    return STOPS if compared.open_stops else CLEAN


def main() -> NoReturn:
    """Run the command; every way out has its exit code, and no trace is ever shown."""
    gc.set_threshold(*GARBAGE)
    _use_utf8()
    try:
        code = appraise.main(standalone_mode=False)
    except click.exceptions.Exit as leave:
        code = leave.exit_code
    except click.ClickException as fault:
        fault.show()
        code = WRONG_CALL
    except click.Abort:
        click.echo("Stopped. Nothing was changed.", err=True)
        code = WRONG_CALL
    except BrokenPipeError:
        # Whoever read our lines has stopped reading, as `head` does.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = CLEAN
    except Exception as fault:  # noqa: BLE001 - the last net: the user gets one sentence, the trace goes to a file
        code = _report_fault(fault)
    sys.exit(code or CLEAN)


def _report_fault(fault: Exception) -> int:
    from appraise.files.atomic import is_full
    from appraise.files.unusable import UnusableFile
    from appraise.jobs.words import UnknownWordError

    if isinstance(fault, UnusableFile | UnknownWordError):
        click.echo(str(fault), err=True)
        return UNUSABLE_FILE if isinstance(fault, UnusableFile) else WRONG_CALL
    if is_full(fault):
        click.echo("The disk is full; nothing more was written. Make room and run the command again.", err=True)
        return UNUSABLE_FILE
    import traceback  # needed only here, and slow to load

    log = _logged("".join(traceback.format_exception(fault)))
    click.echo(
        f"This is a fault of the program, not of your file; nothing was written. The details are in {log}.",
        err=True,
    )
    return OWN_FAULT


def _logged(trace: str) -> str:
    """Write a trace to a file of its own and return its name, or that there is no room for one."""
    from tempfile import NamedTemporaryFile  # needed only here, and slow to load

    try:
        with NamedTemporaryFile("w", prefix="appraise-", suffix=".log", delete=False, encoding="utf-8") as log:
            log.write(trace)
    except OSError as error:
        return f"no file, since none can be written ({error.strerror})"
    return log.name


def _today() -> date:
    """Return the day by this machine's clock: the only place where the clock is read."""
    return datetime.now().astimezone().date()


def _use_utf8() -> None:
    # A Windows console may be in an old code page: an unknown character must not end the run.
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _echo_lines(lines: Any) -> None:
    for line in lines:
        click.echo(line)
