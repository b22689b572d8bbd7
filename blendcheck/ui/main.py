"""The script that Streamlit runs; an installed package has no other."""

from blendcheck.ui import run

run()
