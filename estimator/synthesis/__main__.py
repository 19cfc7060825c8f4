"""Draws every sample plan anew: ``python -m estimator.synthesis [FOLDER]``."""

import sys
from pathlib import Path

from estimator.synthesis.samples import write_sample
from estimator.synthesis.sheets import sheets

if __name__ == "__main__":
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path("sample_plans")
    folder.mkdir(parents=True, exist_ok=True)
    for sample in sheets():
        write_sample(sample, folder)
