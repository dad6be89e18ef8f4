"""The address of a collection on a server, read as it was typed.

Its password stands apart from all that is shown, kept or compared. What is refused is
told with the text as typed, its password taken out first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final
from urllib.parse import SplitResult, parse_qsl, quote, unquote, urlencode, urlsplit

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

DIALECTS: Final = frozenset({"postgresql", "postgresql+psycopg"})
OPTIONS: Final = frozenset(
    {
        "application_name",
        "channel_binding",
        "connect_timeout",
        "gssencmode",
        "host",
        "options",
        "passfile",
        "port",
        "sslcert",
        "sslcrl",
        "sslkey",
        "sslmode",
        "sslrootcert",
        "target_session_attrs",
    }
)
"""What may stand after the question mark, by the names of PostgreSQL's own library."""
_FORM: Final = "postgresql+psycopg://user@host/name"
_LOOKS_LIKE: Final = re.compile(
    r"\s*([a-z][a-z0-9+.-]*://|postgres(ql)?(\+\w+)?[:/]|(//)?[^/\\\s:@]+:[^/\\@]*@)",
    re.IGNORECASE,
)
"""Also what lacks its beginning, so that its password is shown nowhere."""
_BEGIN: Final = re.compile(
    r"[a-z][a-z0-9+.-]*://|postgres(ql)?(\+\w+)?[:/]+|//", re.IGNORECASE
)
_VALUES: Final = {
    "connect_timeout": r"\d+",
    "sslmode": r"disable|allow|prefer|require|verify-ca|verify-full",
}
_SECRETS: Final = frozenset({"password"})
_SECRET_OPTION: Final = re.compile(r"([?&][^=&]*passw[^=&]*=)[^&]*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ServerAddress:
    """Where a collection lies on a server; equal by all but its password."""

    host: str
    database: str
    user: str = ""
    port: int | None = None
    password: str = field(default="", repr=False, compare=False)
    options: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        """Refuse a host that no network could know; raises InputError."""
        if self.host.startswith("/"):
            return  # a socket of this computer
        try:
            self.host.encode("idna")
        except UnicodeError:
            hint = tr("Such as bench.local, or 10.0.0.7.")
            problem = tr("is no name of a computer")
            raise InputError("host", self.host, problem, hint) from None

    @property
    def url(self) -> str:
        """Give it as SQLAlchemy takes it, with its password: never to be shown."""
        return self._url(self.password)

    @property
    def bare(self) -> str:
        """Give it without its password, as it may be kept and shown."""
        return self._url("")

    @property
    def called(self) -> str:
        """Give what a person calls it: the database's name and the host's."""
        if not self.host:
            return self.database
        return tr("{name} on {host}").format(name=self.database, host=self.host)

    def _url(self, password: str) -> str:
        user = quote(self.user, safe="")
        secret = f":{quote(password, safe='')}" if password else ""
        at = f"{user}{secret}@" if user or secret else ""
        host = f"[{self.host}]" if ":" in self.host else quote(self.host, safe="")
        port = "" if self.port is None else f":{self.port}"
        name = quote(self.database, safe="")
        asked = f"?{urlencode(self.options)}" if self.options else ""
        return f"postgresql+psycopg://{at}{host}{port}/{name}{asked}"


def is_address(text: str) -> bool:
    """Tell whether a text is meant as an address, and not as a folder's name."""
    return _LOOKS_LIKE.match(text) is not None


def without_password(text: str) -> str:
    """Give a text that may be an address with all that may be a password taken out."""
    begin = _BEGIN.match(text)
    rest = text[begin.end() if begin else 0 :]
    login, at, place = rest.rpartition("@")
    shown = f"{login.partition(':')[0]}@" if at else ""
    before, question, asked = place.partition("?")
    host, colon, port = before.partition(":")
    is_port = port.partition("/")[0].isdecimal() or "[" in before
    kept = before if at or not colon or is_port else host
    options = _SECRET_OPTION.sub(r"\1", f"{question}{asked}")
    return f"{begin.group() if begin else ''}{shown}{kept}{options}"


def read_address(text: str, named: str = "--collection") -> ServerAddress:
    """Read an address as typed for ``named``; InputError says what is not as it is."""
    text = text.strip()
    parts, port = _split(text, named)
    if parts.scheme not in DIALECTS:
        hint = tr("Name a folder, or an address such as {form}.").format(form=_FORM)
        raise _refused(
            named, text, tr("is not where growdesk keeps a collection"), hint
        )
    name = unquote(parts.path.removeprefix("/"))
    if not text.partition(":")[2].startswith("//") or not name or "/" in name:
        raise _refused(named, text, tr("does not name a server and one collection"))
    told = parse_qsl(parts.query, keep_blank_values=True)
    unknown = [key for key, _ in told if key not in OPTIONS | _SECRETS]
    if unknown:
        hint = tr("Leave it out; sslmode and sslrootcert, for example, are known.")
        problem = tr("asks for {option}, which is not known").format(option=unknown[0])
        raise _refused(named, text, problem, hint)
    for key, value in told:
        if not re.fullmatch(_VALUES.get(key, ".*"), value):
            problem = tr("gives {option} a value that it cannot have")
            raise _refused(named, text, problem.format(option=key))
    secrets = [value for key, value in told if key == "password"]
    return ServerAddress(
        host=unquote(parts.hostname or ""),
        database=name,
        user=unquote(parts.username or ""),
        port=port,
        password=unquote(parts.password or "") or next(iter(secrets), ""),
        options=tuple((key, value) for key, value in told if key not in _SECRETS),
    )


def _split(text: str, named: str) -> tuple[SplitResult, int | None]:
    hint = tr("Write it as {form}; in a password write / as %2F and @ as %40.")
    try:
        parts = urlsplit(text)
        port = parts.port
    except ValueError:
        problem = tr("is no address of a server")
        raise _refused(named, text, problem, hint.format(form=_FORM)) from None
    if parts.fragment:
        problem = tr("is no address of a server")
        raise _refused(named, text, problem, hint.format(form=_FORM))
    return parts, port


def _refused(named: str, text: str, problem: str, hint: str = "") -> InputError:
    way = hint or tr("Write it as {form}.").format(form=_FORM)
    return InputError(named, without_password(text), problem, way)
