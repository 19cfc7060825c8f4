"""Tables of words and figures."""

from collections.abc import Collection, Mapping, Sequence

import streamlit as st


def figures_table(rows: Sequence[Mapping[str, str]], *, words: Collection[str]) -> None:
    """Show rows, figures to the right and the columns called ``words`` to the left."""
    st.dataframe(
        rows,
        hide_index=True,
        height="content",
        column_config={
            column: st.column_config.TextColumn(
                column, alignment="left" if column in words else "right"
            )
            for column in rows[0]
        },
    )
