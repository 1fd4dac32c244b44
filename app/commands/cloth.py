"""``cloth``: the workshop's register of cloths, and copies of its cards in styles.

With ``--upper`` the same for upper materials, which are filed under their name.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.cautions import caution_lines
from app.commands import Outcome
from app.errors import UsageError
from app.measures import METRIC, counted, typed_mm
from app.style.file import load_style, require_unchanged, save_style
from app.style.model import ClothData, SheetConstants, UpperMaterial
from app.style.on_disk import fingerprint
from app.workshop.cloth_csv import cards_csv, read_cards, write_table
from app.workshop.cloth_register import Card, ClothRegister, Entry, Kind, RegisterError, card_id, use_cloth

ACTIONS = {
    "list": "all cards (the default)",
    "show": "ID: one card",
    "history": "ID: all revisions of a card",
    "add": "ID: a new card, fields by --set",
    "set": "ID: change fields of a card by --set",
    "remove": "ID: remove a card (its history is kept)",
    "import": "FILE.csv: file the cards of a table, all or none",
    "export": "FILE.csv: write all cards as a table",
    "use": "STYLE ID: copy a card into a style",
    "take": "STYLE ID: file a style's own cloth in the register",
}
WIDTHS = ("width_mm", "usable_width_mm")
"""Widths of a roll, which may be typed with their unit."""

HELP = "; ".join(f"{name} {what}" for name, what in ACTIONS.items())


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("action", nargs="?", default="list", choices=tuple(ACTIONS), help=HELP)
    parser.add_argument("what", nargs="*", help="what the action names")
    parser.add_argument(
        "--set",
        action="append",
        default=[],
        metavar="FIELD=VALUE",
        help="a field of the card, as price_per_m=3.40, press.temperature_c=110, sheet.e1_n_per_mm=40",
    )
    parser.add_argument("--upper", action="store_true", help="upper materials instead of cloths")
    parser.add_argument(
        "--over", action="store_true", help="take: file it even if the register's card has changed since"
    )
    parser.add_argument("--first", action="store_true", help="use: make it the style's first cloth")
    parser.add_argument(
        "-o", "--out", type=Path, metavar="STYLE", help="use: where to write (default: the style)"
    )
    parser.add_argument("--force", action="store_true", help="use: replace another style that exists")


def run(args: argparse.Namespace) -> Outcome:
    """Do one action on the register."""
    register = ClothRegister()
    doing = {
        "list": _list,
        "show": _show,
        "history": _history,
        "add": _add,
        "set": _set,
        "remove": _remove,
        "import": _import,
        "export": _export,
        "use": _use,
        "take": _take,
    }
    wanted = {"list": 0, "use": 2, "take": 2}.get(args.action, 1)
    if len(args.what) != wanted:
        usage = ACTIONS[args.action].split(":")[0] if wanted else ""
        raise UsageError(
            f"cloth {args.action} needs {usage or 'nothing more'}", remedy=f"cloth {args.action} {usage}"
        )
    if args.upper and args.action in ("add", "set", "import", "export"):
        raise UsageError(
            f"cloth {args.action} is for cloths",
            remedy="enter an upper material in its style and file it with 'cloth take STYLE NAME --upper'",
        )
    return doing[args.action](register, args)


def card_object(entry: Entry) -> dict[str, Any]:
    """Return a card as the command prints it."""
    card = None if entry.card is None else entry.card.model_dump(mode="json")
    return {"id": entry.id, "revision": entry.revision, "at": entry.at, "who": entry.who, "card": card}


def _kind(args: argparse.Namespace) -> Kind:
    return "upper" if args.upper else "cloth"


def _list(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    entries = register.entries(_kind(args))
    lines = [f"{counted(len(entries), 'upper material' if args.upper else 'cloth')} in {register.path}"]
    for entry in entries:
        if args.upper:
            lines.append(
                f"  {entry.id:<36} {_shown(entry.upper.thickness_mm)} mm, "
                f"{counted(len(entry.upper.tests), 'strip')}"
            )
            continue
        cloth = entry.cloth
        price = "no price" if cloth.price_per_m is None else f"{_price(cloth)} {cloth.currency}/m"
        lines.append(
            f"  {cloth.id:<16} {cloth.name:<36} {cloth.usable_width_mm:g} of {cloth.width_mm:g} mm, {price}, "
            f"tight at {cloth.tight_direction_deg:g} deg ({cloth.how_known}), "
            f"{counted(len(cloth.tests), 'strip')}"
        )
    payload = {"register": str(register.path), "cloths": [card_object(entry) for entry in entries]}
    return Outcome(payload, "\n".join(lines))


def _show(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    entry = register.entry(_kind(args), args.what[0])
    return Outcome(card_object(entry), _card_text(entry))


def _history(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    found = register.history(_kind(args), args.what[0])
    if not found:
        raise RegisterError(f"the register has no {args.what[0]}", remedy="'cloth list' shows what it has")
    lines = [
        f"  {entry.revision:>3}  {entry.at}  {entry.who:<12} {'taken out' if entry.card is None else ''}"
        for entry in found
    ]
    return Outcome({"revisions": [card_object(entry) for entry in found]}, "\n".join([args.what[0], *lines]))


def _add(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    fields = _fields(args.set)
    if "width_mm" in fields:
        fields.setdefault("usable_width_mm", fields["width_mm"])
    card = _checked({"id": args.what[0], "name": args.what[0], **fields})
    past = register.history("cloth", card.id)
    if past and past[-1].card is not None:
        raise RegisterError(f"there is a cloth {card.id} already", remedy="change it with 'cloth set'")
    return _filed(register.save(card, seen=past[-1].revision if past else 0))


def _set(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    entry = register.entry("cloth", args.what[0])
    if not args.set:
        raise UsageError("nothing to set", remedy="give --set FIELD=VALUE")
    data = entry.cloth.model_dump(mode="json")
    for name, value in _fields(args.set).items():
        nested = isinstance(value, dict)
        data[name] = {**(data.get(name) or {}), **value} if nested else value
    if data["id"] != entry.id:
        raise UsageError("a card keeps its id", remedy="add a new card instead")
    return _filed(register.save(_checked(data), seen=entry.revision))


def _remove(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    entry = register.entry(_kind(args), args.what[0])
    gone = register.remove(entry.kind, entry.id, seen=entry.revision)
    return Outcome(card_object(gone), f"{entry.id} is removed; its history is kept")


def _import(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    cards = read_cards(Path(args.what[0]))
    filed = register.entries("cloth")
    known = {entry.id: entry.cloth for entry in filed}
    seen = {entry.id: entry.revision for entry in filed}
    # a table knows no strips: those on file are kept
    kept = [
        card.model_copy(update={"tests": known[card.id].tests, "flaws": known[card.id].flaws})
        if card.id in known
        else card
        for card in cards
    ]
    entries = register.save_all((card, seen.get(card.id)) for card in kept)
    changed = sum(card.id in known for card in cards)
    return Outcome(
        {"cloths": [card_object(entry) for entry in entries]},
        f"{counted(len(entries), 'card')} filed: {changed} changed, {len(entries) - changed} new",
    )


def _export(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    cards = [entry.cloth for entry in register.entries("cloth")]
    path = Path(args.what[0])
    write_table(path, cards_csv(cards))
    return Outcome(
        {"files": [str(path)], "cloths": len(cards)}, f"written: {path} ({counted(len(cards), 'card')})"
    )


def _use(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    path, name = Path(args.what[0]), args.what[1]
    out = args.out or path
    if out.exists() and out.resolve() != path.resolve() and not args.force:
        raise UsageError(
            "there is a file of this name already", file=str(out), remedy="choose another, or --force"
        )
    known = fingerprint(out)
    style = load_style(path)
    entry = register.entry(_kind(args), name)
    copy = entry.copy
    if isinstance(copy, UpperMaterial):
        save_style(style.model_copy(update={"upper_material": copy}), out, known=known)
    else:
        save_style(use_cloth(style, copy, first=args.first), out, known=known)
    text = f"{name} (revision {entry.revision}) is copied into {out}"
    return Outcome(
        {"style": str(out), **card_object(entry)}, f"{text}; later changes of the card do not touch it"
    )


def _take(register: ClothRegister, args: argparse.Namespace) -> Outcome:
    path = Path(args.what[0])
    known = fingerprint(path)
    style = load_style(path)
    own: list[Card] = [style.upper_material] if args.upper else list(style.cloths)
    card = next((each for each in own if card_id(each) == args.what[1]), None)
    if card is None:
        raise UsageError(
            f"the style has no {args.what[1]}",
            file=args.what[0],
            remedy="it has "
            + (", ".join(card_id(each) for each in own if card_id(each)) or "none with a name"),
        )
    require_unchanged(path, known)  # before the register holds what the style then does not know of
    entry = register.file(card, over=args.over)
    copy = card.model_copy(update={"register_revision": entry.revision})
    if isinstance(copy, UpperMaterial):
        style = style.model_copy(update={"upper_material": copy})
    else:
        style = style.model_copy(update={"cloths": tuple(copy if c is card else c for c in style.cloths)})
    save_style(style, path, known=known)
    return _filed(entry)


def _filed(entry: Entry) -> Outcome:
    return Outcome(card_object(entry), f"filed as revision {entry.revision}\n{_card_text(entry)}")


def _fields(pairs: list[str]) -> dict[str, Any]:
    fields: dict[str, Any] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        outer, dot, inner = name.strip().partition(".")
        if not equals or not outer or (dot and not inner):
            raise UsageError(f"--set {pair} is not FIELD=VALUE", remedy="write --set price_per_m=3.40")
        allowed = ClothData.model_fields
        if outer not in allowed or outer in ("tests", "flaws", "register_revision"):
            raise UsageError(f"a cloth has no field {outer}", remedy="fields are " + ", ".join(allowed))
        if dot:
            fields.setdefault(outer, {})[inner] = value
        else:
            fields[outer] = _typed(outer, value)
    return fields


def _typed(field: str, value: str) -> Any:
    if field in WIDTHS:
        try:
            return typed_mm(value)
        except ValueError:
            raise UsageError(
                f"--set {field}={value}: that is not a width",
                remedy=f"write mm, or the unit: {field}=1400, {field}=44in",
            ) from None
    return value.replace(",", ".") if field == "price_per_m" else value


def _checked(data: dict[str, Any]) -> ClothData:
    try:
        card = ClothData.model_validate(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        place = ".".join(str(step) for step in first["loc"])
        raise UsageError(
            f"{data['id']}: {place}: {first['msg'].lower()}", remedy=f"give --set {place}=..."
        ) from None
    if card.usable_width_mm > card.width_mm:
        raise UsageError(
            f"{card.id}: usable {card.usable_width_mm:g} of {card.width_mm:g} mm",
            remedy="the usable width is the width without the selvedges",
        )
    for name in ("press", "sheet"):
        odd = getattr(getattr(card, name), "model_extra", None)
        if odd:
            raise UsageError(f"{name} has no field {next(iter(odd))}", remedy="see 'cloth show'")
    return card


def _card_text(entry: Entry) -> str:
    head = f"{entry.id}, revision {entry.revision}, {entry.at} {entry.who}".rstrip()
    if isinstance(entry.card, UpperMaterial):
        upper = entry.card
        known = f"{counted(len(upper.tests), 'strip')}; {_sheet_text(upper.sheet)}"
        return f"{head}\n  {_shown(upper.thickness_mm)} mm, {known}"
    cloth, press = entry.cloth, entry.cloth.press
    setting = "not set: ask the supplier"
    if press.temperature_c is not None:
        setting = (
            f"{_shown(press.temperature_c)} C, {_shown(press.seconds)} s, {_shown(press.pressure_mpa)} MPa"
        )
        setting += f" ({press.source})" if press.source else " (WITHOUT A SOURCE: ask the supplier)"
    made = " ".join(part for part in (cloth.fibre, cloth.weave) if part) or "fibre and weave not given"
    return "\n".join(
        [
            f"{cloth.name} [{head}]",
            f"  {made}, {_shown(cloth.mass_g_per_m2)} g/m2, {_shown(cloth.thickness_mm)} mm",
            f"  glue {cloth.glue or 'not given'}, on the {cloth.coated_side} of the cloth",
            f"  roll {cloth.width_mm:g} mm, usable {cloth.usable_width_mm:g} mm, "
            f"{_shown(cloth.roll_length_m)} m long",
            f"  {_price(cloth)} {cloth.currency}/m; lot {cloth.lot or 'not given'}",
            f"  tight direction {cloth.tight_direction_deg:g} deg from the roll's length "
            f"({cloth.how_known}); {counted(len(cloth.tests), 'strip')}; {_sheet_text(cloth.sheet)}",
            f"  press: {setting}",
            *(f"  {line}" for line in caution_lines("cloth")),
        ]
    )


def _sheet_text(sheet: SheetConstants | None) -> str:
    if sheet is None:
        return "constants not known: test strips with 'stretch'"
    e1, e2, g12 = sheet.e1_n_per_mm, sheet.e2_n_per_mm, sheet.g12_n_per_mm
    return f"E1 {e1:g}, E2 {e2:g}, G12 {g12:g} N/mm, nu12 {sheet.nu12:g} ({sheet.origin or 'no source'})"


def _price(cloth: ClothData) -> str:
    return _shown(cloth.price_per_m if cloth.price_per_m is None else METRIC.price_text(cloth.price_per_m))


def _shown(value: object) -> str:
    return "?" if value is None else f"{value:g}" if isinstance(value, float) else str(value)
