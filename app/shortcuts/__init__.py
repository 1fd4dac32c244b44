"""The program in the desktop's menu: an entry, an icon of our own, style files by double click."""
