"""The cutter's desk: the roll to scale, filled by the engine, finished by hand, always judged."""
