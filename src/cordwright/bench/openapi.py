"""The API's own description, printed as JSON: ``python -m cordwright.bench.openapi``.

The page's types are made from it when the package is built. No server need run for it.
"""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any, Final

from cordwright import __version__

if TYPE_CHECKING:
    from fastapi import FastAPI

REFERENCE: Final = "#/components/schemas/{model}"


def description(app: FastAPI) -> dict[str, Any]:
    """OpenAPI of every path, and the schemas of what goes over the live channel.

    The channel's messages are ``ServerMessage`` and ``ClientMessage``; OpenAPI has no words for a
    WebSocket, so they stand among the components only.
    """
    from fastapi.openapi.utils import get_openapi

    made = get_openapi(
        title="Cordwright workbench",
        version=__version__,
        description="For the workbench's own page, on the maker's own computer.",
        routes=app.routes,
    )
    schemas = made.setdefault("components", {}).setdefault("schemas", {})
    for name, schema in _live().items():
        schemas.setdefault(name, schema)
    made["components"]["schemas"] = dict(sorted(schemas.items()))
    return made


def _live() -> dict[str, Any]:
    from cordwright.bench.live import CLIENT, SERVER

    found: dict[str, Any] = {}
    for name, schema in (
        ("ServerMessage", SERVER.json_schema(ref_template=REFERENCE, mode="serialization")),
        ("ClientMessage", CLIENT.json_schema(ref_template=REFERENCE, mode="validation")),
    ):
        found.update(schema.pop("$defs", {}))
        found[name] = schema
    return found


def main() -> int:
    """Print the description."""
    from cordwright.bench.app import bare_app

    json.dump(description(bare_app()), sys.stdout, indent=1, ensure_ascii=False, sort_keys=True)
    sys.stdout.write("\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
