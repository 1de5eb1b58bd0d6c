"""Looks up the installed dependencies in the public list of known vulnerabilities; fails where one is listed.

Where the package index in use offers no such list, the run says how many packages could not be looked up and goes on:
an audit that could not be made is not an audit that was passed.

    python .ci/audit.py FOLDER_OF_SITE_PACKAGES
"""

import json
import subprocess
import sys
from typing import Any

SECONDS = 120


def main(site_packages: str) -> int:
    """Print what the audit found and return the exit code: 1 for a known vulnerability, else 0."""
    command = [sys.executable, "-m", "pip_audit", "--format", "json", "--progress-spinner", "off", "--path"]
    try:
        run = subprocess.run([*command, site_packages], capture_output=True, text=True, timeout=SECONDS)  # noqa: S603
        found: list[dict[str, Any]] = json.loads(run.stdout)["dependencies"]
    except (subprocess.TimeoutExpired, ValueError, KeyError):
        print("dependencies NOT audited: the list of known vulnerabilities gave no answer")
        return 0
    unknown = [one["name"] for one in found if "skip_reason" in one]
    listed = [(one["name"], one["version"], flaw["id"]) for one in found for flaw in one.get("vulns", [])]
    print(f"dependencies audited: {len(found) - len(unknown)}, not to be found in the list: {len(unknown)}")
    for name, version, flaw in listed:
        print(f"  {name} {version}: {flaw}")
    if unknown and len(unknown) == len(found):
        print("dependencies NOT audited: this package index offers no list of known vulnerabilities")
    return 1 if listed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
