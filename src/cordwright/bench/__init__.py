"""The workbench: the maker's pieces, live, in the browser, served by their own computer.

Thin, and without arithmetic of its own: it keeps documents, calls the rooms below in processes of
their own, and hands what they say to the page.
"""
