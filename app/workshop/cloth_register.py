"""The workshop's register of cloths and upper materials: one SQLite file for all desks.

A card is never overwritten: every change is a new revision, and taking a card out is one too. Who changes a
card says which revision they saw; if another desk was faster, they are refused, instead of overwriting the
other's work. Styles hold copies, so that a style does not change later.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from app.errors import AppError
from app.style.model import ClothData, Style, UpperMaterial
from app.workshop.database import Database
from app.workshop.folder import data_path, who
from geometry.said import said

Kind = Literal["cloth", "upper"]
Card = ClothData | UpperMaterial

_SCHEMA = """
CREATE TABLE IF NOT EXISTS card (
    kind TEXT NOT NULL, id TEXT NOT NULL, revision INTEGER NOT NULL, at TEXT NOT NULL,
    who TEXT NOT NULL, body TEXT, PRIMARY KEY (kind, id, revision));
"""
_MODELS: dict[Kind, type[Card]] = {"cloth": ClothData, "upper": UpperMaterial}


class RegisterError(AppError):
    """A card that is not there, or that another desk has changed meanwhile."""


class CardChanged(RegisterError):
    """The card is not as it was when it was copied; ``now`` is what the register has of it."""

    def __init__(self, message: str, *, remedy: str, now: Entry) -> None:
        super().__init__(message, remedy=remedy)
        self.now = now


@dataclass(frozen=True)
class Entry:
    """A card as it stands; ``card`` is None where it was taken out."""

    kind: Kind
    id: str
    revision: int
    at: str
    who: str
    card: Card | None

    @property
    def copy(self) -> Card:
        """The card for a style: it knows of which revision it is a copy. Raises TypeError without."""
        if self.card is None:
            raise TypeError(f"{self.id} is taken out")
        return self.card.model_copy(update={"register_revision": self.revision})

    @property
    def cloth(self) -> ClothData:
        """The card of a cloth; raises TypeError for another."""
        if not isinstance(self.card, ClothData):
            raise TypeError(f"{self.id} is no cloth")
        return self.card

    @property
    def upper(self) -> UpperMaterial:
        """The card of an upper material; raises TypeError for another."""
        if not isinstance(self.card, UpperMaterial):
            raise TypeError(f"{self.id} is no upper material")
        return self.card


def card_id(card: Card) -> str:
    """Return what a card is filed under: a cloth's id, an upper material's name."""
    return card.id if isinstance(card, ClothData) else card.name


def kind_of(card: Card) -> Kind:
    """Return which kind of card it is."""
    return "cloth" if isinstance(card, ClothData) else "upper"


class ClothRegister:
    """The register, in one file; raises DatabaseError when the file cannot be used."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = data_path("register.sqlite") if path is None else path
        self._db = Database(self.path, _SCHEMA, 1)

    def entries(self, kind: Kind) -> tuple[Entry, ...]:
        """Return the cards of a kind as they stand, by id."""
        with self._db.read() as db:
            rows = db.execute(
                "SELECT * FROM card AS c WHERE kind=? AND body IS NOT NULL AND revision="
                "(SELECT MAX(revision) FROM card WHERE kind=c.kind AND id=c.id) ORDER BY id",
                (kind,),
            ).fetchall()
        return tuple(self._entry(row) for row in rows)

    def find(self, kind: Kind, text: str = "", most: int = 200) -> tuple[tuple[Entry, ...], int]:
        """Return the first cards whose id or name holds ``text``, those taken out last, and the count of all.

        A register of thousands is looked through in parts: reading each card of it would take seconds.
        """
        with self._db.read() as db:
            db.create_function("fold", 1, lambda value: str(value or "").casefold(), deterministic=True)
            where = (
                "FROM card AS c WHERE kind=? AND revision="
                "(SELECT MAX(revision) FROM card WHERE kind=c.kind AND id=c.id)"
            )
            values: tuple[object, ...] = (kind,)
            if text.strip():
                where += " AND (instr(fold(id), ?) OR instr(fold(json_extract(body, '$.name')), ?))"
                values += (text.strip().casefold(),) * 2
            found = [row[0] for row in db.execute(f"SELECT rowid {where} ORDER BY body IS NULL, id", values)]
            shown = [
                db.execute("SELECT * FROM card WHERE rowid=?", (row,)).fetchone() for row in found[:most]
            ]
        return tuple(self._entry(row) for row in shown), len(found)

    def entry(self, kind: Kind, name: str) -> Entry:
        """Return one card; raises RegisterError when there is none of that name."""
        with self._db.read() as db:
            found = self._last(db, kind, name)
        if found is None or found.card is None:
            known = ", ".join(entry.id for entry in self.entries(kind)) or "none yet"
            raise RegisterError(
                said("the register has no {0} {1}", _named(kind), name), remedy=said("there are: {0}", known)
            )
        return found

    def history(self, kind: Kind, name: str) -> tuple[Entry, ...]:
        """Return all revisions of a card, oldest first."""
        with self._db.read() as db:
            rows = db.execute(
                "SELECT * FROM card WHERE kind=? AND id=? ORDER BY revision", (kind, name)
            ).fetchall()
        return tuple(self._entry(row) for row in rows)

    def save(self, card: Card, *, seen: int | None) -> Entry:
        """File a card and return it as it stands; ``seen`` is the revision it was changed from.

        0 files a new one; None files it whatever is there (an import). Raises RegisterError when
        another revision came between, or the card has no name.
        """
        return self.save_all([(card, seen)])[0]

    def save_all(self, cards: Iterable[tuple[Card, int | None]]) -> tuple[Entry, ...]:
        """File several cards, all of them or none; see ``save``."""
        with self._db.write() as db:
            return tuple(self._put(db, kind_of(card), card_id(card), card, seen) for card, seen in cards)

    def file(self, card: Card, *, over: bool = False) -> Entry:
        """File a style's card; its flaws stay out, they lie on a roll.

        Raises CardChanged where the register's card is not the one it was copied from; with
        ``over`` it is filed all the same, as another revision. RegisterError as ``save``.
        """
        if isinstance(card, ClothData):
            card = card.model_copy(update={"flaws": ()})
        with self._db.write() as db:
            last = self._last(db, kind_of(card), card_id(card))
            if last is not None and not over and last.revision != card.register_revision:
                raise _changed(card, last)
            return self._put(db, kind_of(card), card_id(card), card, None)

    def remove(self, kind: Kind, name: str, *, seen: int | None = None) -> Entry:
        """Take a card out; its history stays. Raises RegisterError as ``save``."""
        self.entry(kind, name)
        with self._db.write() as db:
            return self._put(db, kind, name, None, seen)

    def _put(
        self, db: sqlite3.Connection, kind: Kind, name: str, card: Card | None, seen: int | None
    ) -> Entry:
        if not name.strip():
            raise RegisterError(
                said("a {0} needs a name to be filed under", _named(kind)), remedy="give it one"
            )
        last = self._last(db, kind, name)
        revision = last.revision if last else 0
        if seen is not None and seen != revision:
            if last is None or last.card is None:
                raise RegisterError(
                    said("{0} is not in the register any more", name),
                    remedy="add it again if it is still used",
                )
            raise RegisterError(
                said("{0} was changed at {1} by {2}", name, last.at, last.who or "another desk"),
                remedy="look at the card as it is now, and change it again",
            )
        if card is not None and card.register_revision:
            card = card.model_copy(update={"register_revision": 0})
        entry = Entry(kind, name, revision + 1, datetime.now(UTC).isoformat(timespec="seconds"), who(), card)
        body = None if card is None else card.model_dump_json(exclude_defaults=True)
        db.execute(
            "INSERT INTO card (kind, id, revision, at, who, body) VALUES (?,?,?,?,?,?)",
            (kind, name, entry.revision, entry.at, entry.who, body),
        )
        return entry

    def _last(self, db: sqlite3.Connection, kind: Kind, name: str) -> Entry | None:
        row = db.execute(
            "SELECT * FROM card WHERE kind=? AND id=? ORDER BY revision DESC LIMIT 1", (kind, name)
        ).fetchone()
        return None if row is None else self._entry(row)

    def _entry(self, row: sqlite3.Row) -> Entry:
        kind: Kind = row["kind"]
        try:
            card = None if row["body"] is None else _read(kind, row["body"])
        except ValidationError as error:
            raise RegisterError(
                said(
                    "the card of {0} is damaged ({1})", row["id"], error.errors(include_url=False)[0]["msg"]
                ),
                remedy="bring back an older revision of it",
                file=str(self.path),
            ) from None
        return Entry(kind, row["id"], row["revision"], row["at"], row["who"], card)


@lru_cache(maxsize=20_000)
def _read(kind: Kind, body: str) -> Card:
    """Return the card of a text; cards never change, and a register of thousands is read again and again."""
    return _MODELS[kind].model_validate_json(body)


def use_cloth(style: Style, cloth: ClothData, *, first: bool = False) -> Style:
    """Return the style with a copy of a cloth: in place of its own of that id, else added.

    ``first`` makes it the style's first cloth, the one for layers that name none.
    """
    others = [own for own in style.cloths if own.id != cloth.id]
    at = next((i for i, own in enumerate(style.cloths) if own.id == cloth.id), len(others))
    others.insert(0 if first else at, cloth)
    return style.model_copy(update={"cloths": tuple(others)})


def _changed(card: Card, last: Entry) -> CardChanged:
    name, by = card_id(card), last.who or "another desk"
    what = "was taken out of the register" if last.card is None else "was changed in the register"
    if card.register_revision:
        message = f"{name} {what} at {last.at} by {by} (revision {last.revision}; yours began from "
        message += f"{card.register_revision})"
    else:
        message = f"{name} stands in the register already, revision {last.revision} of {last.at} by {by}"
    remedy = "look at the card as it stands now; filing over it keeps it in the history"
    return CardChanged(message, remedy=remedy, now=last)


def _named(kind: Kind) -> str:
    return "cloth" if kind == "cloth" else "upper material"
