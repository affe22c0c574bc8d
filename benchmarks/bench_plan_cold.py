"""Somebody waits for the set book: ``lathlight plan`` from a cold start, the whole folder written.

Baseline in the same run: the bare libraries writing a one-line PDF, an empty DXF and an empty workbook, cold.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from measuring import DEMOS, EXAMPLES, machine, python, seconds, table

RUNS = 5
PLAIN = """
import io, typst, ezdxf, openpyxl
typst.compile(b"Hello", format="pdf")
ezdxf.new(setup=["linetypes"]).write(io.StringIO())
openpyxl.Workbook().save(io.BytesIO())
"""


def main() -> None:
    print(machine())
    baseline = seconds(lambda: python("-c", PLAIN), runs=RUNS)
    rows = [["typesetter, DXF and spreadsheet libraries, empty output", f"{baseline:.2f} s", "1.00"]]
    with tempfile.TemporaryDirectory() as folder:
        for name in DEMOS:
            arguments = ("-m", "lathlight", "plan", str(EXAMPLES / f"{name}.toml"), "--out", str(Path(folder) / name))
            taken = seconds(lambda arguments=arguments: python(*arguments), runs=RUNS)
            rows.append([f"plan {name}", f"{taken:.2f} s", f"{taken / baseline:.2f}"])
    table(("work, cold", "median", "ratio"), rows)


if __name__ == "__main__":
    main()
