"""Runs the page from a checkout: ``streamlit run app.py``."""

from blendcheck.ui import run

run()
