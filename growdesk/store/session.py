"""One transaction of an open collection, begun by its first statement.

SQLAlchemy's own session is not used: nothing here is an object that is tracked, and
its mapper would have to be loaded at each start.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar, overload

from typing_extensions import TypeVarTuple

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from types import TracebackType
    from typing import Never, Self

    from sqlalchemy import (
        Connection,
        CursorResult,
        Engine,
        Executable,
        NestedTransaction,
        ScalarResult,
    )
    from sqlalchemy.sql.selectable import TypedReturnsRows

    Values = Mapping[str, Any] | Sequence[Mapping[str, Any]] | None

T = TypeVar("T")
Ts = TypeVarTuple("Ts")


class Session:
    """A block's statements: kept whole when it ends, taken back where it fails.

    After its block it is asked nothing: who did would begin a transaction without end.
    ``info`` carries what whoever works in the block wants to know of it.
    """

    def __init__(
        self, engine: Engine, info: Mapping[str, object] | None = None
    ) -> None:
        self.info: dict[str, Any] = dict(info or {})
        self._engine = engine
        self._connection: Connection | None = None
        self._is_over = False

    def connection(self) -> Connection:
        """Give the connection, its transaction begun."""
        made = self._connection
        if made is None:
            if self._is_over:
                raise RuntimeError("a session is asked nothing after its block")
            made = self._engine.connect()
            try:
                made.begin()
            except BaseException:
                made.close()
                raise
            self._connection = made
        return made

    def begin_nested(self) -> NestedTransaction:
        """Give a block within the block, taken back by itself where it fails."""
        return self.connection().begin_nested()

    @overload
    def execute(
        self, statement: TypedReturnsRows[*Ts], values: Values = None
    ) -> CursorResult[*Ts]: ...
    @overload
    def execute(
        self, statement: Executable, values: Values = None
    ) -> CursorResult[*tuple[Any, ...]]: ...
    def execute(self, statement: Executable, values: Values = None) -> Any:
        """Give the rows of a statement; with many values it is run for each."""
        return self.connection().execute(statement, values)

    @overload
    def scalars(self, statement: TypedReturnsRows[T]) -> ScalarResult[T]: ...
    @overload
    def scalars(self, statement: Executable) -> ScalarResult[Any]: ...
    def scalars(self, statement: Executable) -> ScalarResult[Any]:
        """Give the first value of each row."""
        return self.connection().scalars(statement)

    @overload
    def scalar(self, statement: TypedReturnsRows[Never]) -> Any | None: ...
    @overload
    def scalar(self, statement: TypedReturnsRows[T]) -> T | None: ...
    @overload
    def scalar(self, statement: Executable) -> Any: ...
    def scalar(self, statement: Executable) -> Any:
        """Give the first value of the first row; nothing where there is no row."""
        return self.connection().scalar(statement)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        made, self._connection, self._is_over = self._connection, None, True
        if made is None:
            return
        with made:
            if kind is None:
                made.commit()
