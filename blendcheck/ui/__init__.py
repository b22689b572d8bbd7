"""The page: six pages now, with room for Batches.

Started by ``blendcheck page``, or from a checkout with ``streamlit run app.py``.
"""

__all__ = ["run"]


def run() -> None:
    """Show the page that is asked for."""
    import streamlit as st  # the package is imported without a page too

    from blendcheck.ui import check, compare, materials, papers, recipe, reference

    st.set_page_config(page_title="blendcheck", layout="wide")
    pages = [
        st.Page(materials.show, title="Materials", url_path="materials"),
        st.Page(recipe.show, title="Recipe", url_path="recipe", default=True),
        st.Page(check.show, title="Check", url_path="check"),
        st.Page(compare.show, title="Compare", url_path="compare"),
        st.Page(papers.show, title="Papers", url_path="papers"),
        st.Page(reference.show, title="Reference", url_path="reference"),
    ]
    st.navigation(pages, position="top").run()
