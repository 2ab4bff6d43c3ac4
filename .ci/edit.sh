#!/usr/bin/env bash
# Opens the real window on a copy of a build, chooses another pack and saves, by keys alone. Then the file must hold another
# pack, and not one byte outside that record may have changed.
# Usage: edit.sh BUILD.ron [PICTURE.png]   (WIDTHxHEIGHT in SIZE, the program in PROPWRIGHT)
set -eu
name=edit.sh
build=$1
picture=${2:-}
. "$(dirname "$0")/screen.sh"

open_screen
file=$work/craft.ron
cp "$build" "$file"
record='^ *(slot: Battery,'
[ "$(grep -c "$record" "$build")" = 1 ] || fail "$build lists no pack in one line"

# Keys one after the other, with time for a frame between them; a word after "type" is typed.
keys() {
    local key
    for key in "$@"; do
        case $key in
        type:*) xdotool type --delay 40 "${key#type:}" ;;
        *) xdotool key "$key" ;;
        esac
        sleep 0.4
    done
}

open_window "$file"
id=$(xdotool search --onlyvisible --pid "$window" | tail -n 1)
[ -n "$id" ] || fail "the window is not on the screen"
xdotool windowfocus "$id"
sleep 0.5
# Find the pack's slot, take the next row of its picker, save.
keys ctrl+k "type:pack:" Return Down Return ctrl+s

for _ in $(seq 50); do
    cmp -s "$build" "$file" || break
    sleep 0.2
done
[ -z "$picture" ] || take_picture "$picture"
kill -0 "$window" 2>/dev/null || fail "the program ended"
cmp -s "$build" "$file" && fail "nothing was saved"
# The saved file is in its place at once, never in part; the backup beside it holds what was there.
cmp -s "$build" "$file.bak" || fail "the backup is not the file as it was"
[ "$(grep -c "$record" "$file")" = 1 ] || fail "the pack's record is gone"
pack() { sed -n "/$record/s/.*part: \"\([^\"]*\)\".*/\1/p" "$1"; }
[ "$(pack "$build")" != "$(pack "$file")" ] || fail "the pack is still $(pack "$build")"
but_for_the_pack() { sed "/$record/s/part: \"[^\"]*\"/part: \"…\"/" "$1"; }
but_for_the_pack "$build" >"$work/before"
but_for_the_pack "$file" >"$work/after"
diff "$work/before" "$work/after" >&2 || fail "more than the pack was changed"
"$program" check "$file" >"$work/report" 2>&1 || [ $? = 1 ] || fail "the saved file cannot be read: $(cat "$work/report")"
echo "$name: $(pack "$build") became $(pack "$file"), nothing else changed"
