"""The workshop's own records: register of cloths, trial book, ledger of runs, in small databases."""
