"""The window: the only part of the program that knows Qt.

``application`` start-up, ``main_window`` the shell, ``session`` the open style for all desks,
``canvas`` the drawing board, ``desks`` one package per desk, ``theme`` and ``marks`` the look.
"""
