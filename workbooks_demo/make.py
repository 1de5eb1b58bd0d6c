"""Makes the workbooks of the demonstration jobs from their text sources, and draws their photographs.

    python -m workbooks_demo                 every job
    python -m workbooks_demo estate          one job
    python -m workbooks_demo --no-photos     workbooks only

Run it from the project's folder. The same sources give the same files.
"""

import argparse
from pathlib import Path

from appraise.files.atomic import write_bytes
from appraise.model.missing import given, value_or
from appraise.workbook.writing.write import write_job
from workbooks_demo.drawings import draw_photo
from workbooks_demo.sources import HERE, job_folders, read_job, read_rows


def workbook_of(folder: Path) -> Path:
    """Return where the workbook of a job stands: in its folder, named after it."""
    return folder / f"{folder.name}.xlsx"


def make_workbook(folder: Path, target: Path | None = None) -> Path:
    """Write the workbook of a job and return its path; `target` elsewhere than in the folder."""
    rows = read_rows(folder)
    return write_job(target or workbook_of(folder), rows, str(rows["assignment"][0]["use"]))


def make_photos(folder: Path) -> int:
    """Draw every photograph a job lists; return how many."""
    job = read_job(folder)
    items = {item.id: item for item in job.items}
    for photo in job.photos:
        file = folder / str(photo.file)
        file.parent.mkdir(exist_ok=True)
        write_bytes(file, draw_photo(items[photo.item], photo))
    return len(job.photos)


def make_pages(folder: Path) -> int:
    """Write the saved page of every sale that names one, as plain text; return how many."""
    saved = [sale for sale in read_job(folder).sales if given(sale.evidence_file)]
    for sale in saved:
        file = folder / str(sale.evidence_file)
        file.parent.mkdir(exist_ok=True)
        lines = (
            f"{sale.house}, {value_or(sale.lot, 'list')}",
            f"{sale.maker} {sale.model}",
            str(value_or(sale.description, "")),
            f"{sale.currency} {sale.price:,}",
            f"seen {sale.day}, saved {value_or(sale.accessed, '')}; a page of an invented dealer",
        )
        write_bytes(file, "".join(f"{line}\n" for line in lines).encode())
    return len(saved)


def main(arguments: list[str] | None = None) -> None:
    """Make what is asked for and say what was made."""
    parser = argparse.ArgumentParser(prog="python -m workbooks_demo", description="Make the demonstration jobs.")
    parser.add_argument("job", nargs="*", help="names of jobs; none: all")
    parser.add_argument("--no-photos", action="store_true", help="leave the photographs as they are")
    asked = parser.parse_args(arguments)
    folders = {folder.name: folder for folder in job_folders()}
    unknown = sorted(set(asked.job) - set(folders))
    if unknown:
        parser.error(f"no such job: {', '.join(unknown)}; there are {', '.join(folders)}")
    for name in asked.job or folders:
        made = make_workbook(folders[name])
        make_pages(folders[name])
        photos = 0 if asked.no_photos else make_photos(folders[name])
        print(f"{made.relative_to(HERE.parent)}" + (f" and {photos} photographs" if photos else ""))
