"""The least a Streamlit page can do: a button, and a figure that changes with it."""

import streamlit as st

st.session_state.setdefault("count", 0)


def more() -> None:
    st.session_state["count"] += 1


st.button("More", on_click=more)
st.metric("Price", str(st.session_state["count"]))
