"""Work beside the window: engines, commands and the hold judge."""
