"""An application bundle in ~/Applications: a property list, our icon, and a script that starts this copy."""

from __future__ import annotations

import os
import plistlib
import shlex
from collections.abc import Callable, Sequence
from pathlib import Path

from app.atomic import write_whole

NAME = "stayply"
ICON = Path(__file__).with_name("stayply.icns")
KIND = "local.stayply.style"
REGISTER = (
    "/System/Library/Frameworks/CoreServices.framework/Frameworks/LaunchServices.framework/Support/lsregister"
)


def place(applications: Path, words: Sequence[str], run: Callable[[Sequence[str]], int]) -> list[Path]:
    """Write the bundle and make the system take note of it."""
    bundle = applications / f"{NAME}.app"
    contents = bundle / "Contents"
    program = contents / "MacOS" / NAME
    write_whole(contents / "Resources" / f"{NAME}.icns", ICON.read_bytes())
    write_whole(contents / "Info.plist", property_list())
    write_whole(program, f'#!/bin/sh\nexec {shlex.join(words)} "$@"\n')
    os.chmod(program, 0o755)
    run([REGISTER, "-f", str(bundle)])
    return [bundle, program]


def property_list() -> bytes:
    """Return Info.plist: who we are, and that we edit style files (one of several programs for JSON)."""
    return plistlib.dumps(
        {
            "CFBundleName": NAME,
            "CFBundleIdentifier": "local.stayply",
            "CFBundleExecutable": NAME,
            "CFBundleIconFile": NAME,
            "CFBundlePackageType": "APPL",
            "CFBundleShortVersionString": "0.1",
            "NSHighResolutionCapable": True,
            "CFBundleDocumentTypes": [
                {
                    "CFBundleTypeName": "stayply style",
                    "CFBundleTypeRole": "Editor",
                    "LSHandlerRank": "Alternate",
                    "LSItemContentTypes": [KIND, "public.json"],
                }
            ],
            "UTExportedTypeDeclarations": [
                {
                    "UTTypeIdentifier": KIND,
                    "UTTypeDescription": "stayply style",
                    "UTTypeConformsTo": ["public.json"],
                    "UTTypeTagSpecification": {"public.filename-extension": ["style.json"]},
                }
            ],
        }
    )
