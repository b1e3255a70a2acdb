"""What pages share: lines and cells, charts, signs, words about a person."""
