"""What is measured on: workbooks, photographs and kept views, made once and kept in a folder."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from bench import generate
from bench.child import python, run

PHOTOS = 3


@dataclass(frozen=True, slots=True)
class Inputs:
    """The folder of what is measured on. Workbooks are kept from run to run, views are composed anew."""

    folder: Path

    def workbook(self, items: int, *, photos: int = 0, camera: bool = False) -> Path:
        """Return a workbook of so many items, generated if it is not there yet."""
        name = f"{items}{f'-{photos}-photos' if photos else ''}{'-camera' if camera else ''}-{_mark()}"
        file = self.folder / name / "job.xlsx"
        if not file.exists():
            print(f"  making {name}", flush=True)
            file.parent.mkdir(parents=True, exist_ok=True)
            started = file.with_suffix(".part")
            generate.write_workbook(started, items, photos=photos, camera=camera)
            started.rename(file)
        return file

    def view(self, items: int, *, camera: bool = False) -> Path:
        """Return the kept view of a report of so many items with prepared photographs."""
        workbook = self.workbook(items, photos=PHOTOS, camera=camera)
        file = workbook.with_suffix(".view")
        print(f"  composing {items} items", flush=True)
        run(python("-m", "bench.ours.compose", workbook, file))
        return file

    def scratch(self, name: str) -> Path:
        """Return a name for an output."""
        (self.folder / "out").mkdir(parents=True, exist_ok=True)
        return self.folder / "out" / name


def _mark() -> str:
    return sha256(Path(generate.__file__).read_bytes()).hexdigest()[:8]
