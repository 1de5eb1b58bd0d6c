"""What is measured on: workbooks, photographs and kept views, made once and kept in a folder."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from bench import generate
from bench.child import python, run

PHOTOS = 3


@dataclass(frozen=True, slots=True)
class Inputs:
    """The folder of what is measured on. Workbooks are kept from run to run, views are composed anew.

    makers  by file, how it is made once a line needs it
    """

    folder: Path
    makers: dict[str, Callable[[], None]] = field(default_factory=dict)

    def workbook(self, items: int, *, photos: int = 0, camera: bool = False) -> Path:
        """Return the name of a workbook of so many items."""
        name = f"{items}{f'-{photos}-photos' if photos else ''}{'-camera' if camera else ''}-{_mark()}"
        file = self.folder / name / "job.xlsx"

        def make() -> None:
            if not file.exists():
                print(f"  making {name}", flush=True)
                file.parent.mkdir(parents=True, exist_ok=True)
                started = file.with_suffix(".part")
                large = ("--camera",) if camera else ()
                run(python("-m", "bench.workbook", started, items, "--photos", photos, *large))
                started.rename(file)

        self.makers[str(file)] = make
        return file

    def view(self, items: int, *, camera: bool = False) -> Path:
        """Return the name of the kept view of a report of so many items with prepared photographs."""
        workbook = self.workbook(items, photos=PHOTOS, camera=camera)

        def make() -> None:
            self.makers[str(workbook)]()
            print(f"  composing {items} items", flush=True)
            run(python("-m", "bench.ours.compose", workbook, file))

        file = workbook.with_suffix(".view")
        self.makers[str(file)] = make
        return file

    def proof(self, items: int) -> Path:
        """Return the name of a finished proof of a job of so many items."""
        workbook = self.workbook(items)

        def make() -> None:
            self.makers[str(workbook)]()
            run(python("-m", "bench.ours.proof", workbook, file))

        file = workbook.with_name("proof.xlsx")
        self.makers[str(file)] = make
        return file

    def make(self, names: Iterable[str]) -> None:
        """Make what of these is an input."""
        for name in dict.fromkeys(names):
            if name in self.makers:
                self.makers[name]()

    def scratch(self, name: str) -> Path:
        """Return a name for an output."""
        (self.folder / "out").mkdir(parents=True, exist_ok=True)
        return self.folder / "out" / name


def _mark() -> str:
    return sha256(Path(generate.__file__).read_bytes()).hexdigest()[:8]
