//! Pure physics: each model in SI units, with its source, its validity and an example.
