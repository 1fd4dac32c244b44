"""What lays say of the engines here. Light to load: strategies ask it before anything compiled is read."""

BANDS = "bands of rows"

WINDOWS = "shortened in windows"


def with_windows(engine: str) -> str:
    """Return what made a lay that ``engine`` laid and windows shortened."""
    return engine if WINDOWS in engine else f"{engine}, {WINDOWS}"
