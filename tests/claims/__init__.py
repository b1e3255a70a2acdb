"""Whole invented clinics whose truth is known: how often is a sentence said that luck alone made.

The way of a figure: a world (`worlds`), a clinic drawn in it ball by ball (`clinics`), the balls as
coaching takes them (`histories`), every sentence said of them (`sentences`), the claims read out of
those (`claims`), each judged by what the world knows (`truth`). Then the share of cues, players and
clinics with a false one (`figures`), beside what it may be (`aims`). `python -m tests.claims`
prints them all.
"""
