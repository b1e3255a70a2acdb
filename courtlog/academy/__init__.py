"""An academy's folder: snapshots of many books as Parquet, and the questions that engines answer.

Nothing comes back from it into a book.
"""
