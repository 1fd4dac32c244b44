"""The inch and the yard in millimetres: exact since the international yard and pound agreement of 1959."""

MM_PER_INCH = 25.4
MM_PER_YARD = 914.4
