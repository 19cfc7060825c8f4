from pathlib import Path

BENCHMARKS = Path(__file__).parent / "benchmarks"


def pytest_ignore_collect(collection_path, config):
    """Leave benchmarks out unless they are asked for by name."""
    asked = any("benchmarks" in argument for argument in config.args)
    return True if collection_path == BENCHMARKS and not asked else None
