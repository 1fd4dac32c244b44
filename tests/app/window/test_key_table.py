"""The keys in the documentation are the keys of the program."""

from app.window.shell.key_table import key_table
from tests.app.window.hands import ROOT


def test_docs_hold_the_table_of_keys():
    text = (ROOT / "docs/window.md").read_text(encoding="utf-8")
    between = text.split("<!-- keys -->\n")[1].split("<!-- end of keys -->")[0]
    assert between.strip() == key_table().strip(), "run python -m app.window.shell.key_table"
