"""The page of the trial book: what fused samples, skiving checks and lasting trials showed."""
