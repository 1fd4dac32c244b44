"""Sample styles: one folder a style, all drawn by ``sample_styles.draw``."""
