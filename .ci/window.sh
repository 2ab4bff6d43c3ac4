#!/usr/bin/env bash
# Opens the real window on a screen in memory, waits for its first frame, and takes a picture.
# Usage: window.sh BUILD.ron PICTURE.png   (WIDTHxHEIGHT in SIZE, the program in PROPWRIGHT)
set -eu
name=window.sh
build=$1
picture=$2
. "$(dirname "$0")/screen.sh"

open_screen
open_window "$build"
take_picture "$picture"
[ "$(identify -format '%k' "$picture")" -gt 16 ] || fail "the picture shows hardly any colour: nothing was drawn"
grep first-frame "$work/log"
echo "$name: $picture"
