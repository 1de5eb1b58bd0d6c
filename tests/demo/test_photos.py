"""The committed photographs: there, of the stated size, each of its own, and drawn alike each time."""

import hashlib
import io
from pathlib import Path

import pytest
from PIL import Image
from support.demo import draw_photo, job_folders, read_job

FOLDERS = job_folders()
each_job = pytest.mark.parametrize("folder", FOLDERS, ids=[folder.name for folder in FOLDERS])


@each_job
def test_every_photograph_listed_is_committed_and_no_other(folder: Path) -> None:
    listed = {str(photo.file) for photo in read_job(folder).photos}
    assert {f"photos/{file.name}" for file in (folder / "photos").glob("*")} == listed


@each_job
def test_photographs_differ_and_have_the_size_stated(folder: Path) -> None:
    seen: dict[str, Path] = {}
    for file in sorted((folder / "photos").glob("*.jpg")):
        content = file.read_bytes()
        with Image.open(io.BytesIO(content)) as picture:
            assert (picture.format, picture.size) == ("JPEG", (900, 1200)), file.name
        other = seen.setdefault(hashlib.sha256(content).hexdigest(), file)
        assert other is file, (file.name, other.name)


def test_all_photographs_together_stay_small() -> None:
    """A clone must stay light: fewer than ten million bytes for all jobs."""
    assert sum(file.stat().st_size for folder in FOLDERS for file in (folder / "photos").glob("*.jpg")) < 10_000_000


def test_drawing_twice_gives_the_same_picture() -> None:
    folder = FOLDERS[0]
    job = read_job(folder)
    items = {item.id: item for item in job.items}
    for photo in job.photos[:2]:
        first = draw_photo(items[photo.item], photo)
        assert draw_photo(items[photo.item], photo) == first


@each_job
def test_saved_pages_are_committed(folder: Path) -> None:
    named = {str(sale.evidence_file) for sale in read_job(folder).sales if isinstance(sale.evidence_file, str)}
    assert {one for one in named if not (folder / one).is_file()} == set()
