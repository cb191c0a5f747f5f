//! One shop in the numbers and dates of five countries.
