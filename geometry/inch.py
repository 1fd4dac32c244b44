"""The inch and the yard in millimetres: exact since the international yard and pound agreement of 1959."""

MM_PER_INCH = 25.4  # exact by definition (international yard and pound agreement, 1959)
MM_PER_YARD = 914.4  # exact, 36 inches
