#!/usr/bin/env bash
# Takes a picture of every page of the real window, light and dark, on two sizes of screen, at 100 and 200 %.
# Usage: pictures.sh BUILD.ron FOLDER   (the program in PROPWRIGHT; only some sizes in SIZES, scales in SCALES, pages in PAGES)
set -eu
name=pictures.sh
build=$(realpath "$1")
mkdir -p "$2"
folder=$(realpath "$2")
here=$(realpath "$(dirname "$0")")
pages=${PAGES:-purpose parts together flight cost paper}

# One run of the program: all pages in both appearances at one size and scale.
one_run() (
    SIZE=$1
    . "$here/screen.sh"
    open_screen
    export WINIT_X11_SCALE_FACTOR=$2
    open_window "$build"
    id=$(xdotool search --onlyvisible --pid "$window" | tail -n 1)
    [ -n "$id" ] || fail "the window is not on the screen"
    xdotool windowmove "$id" 0 0 windowsize "$id" "${1%x*}" "${1#*x}"
    xdotool windowfocus "$id"
    sleep 1
    for look in light dark; do
        number=0
        for page in $pages; do
            number=$((number + 1))
            xdotool key "ctrl+$number"
            sleep 0.3
            # Page Parts shows its most once a part is being chosen.
            if [ "$page" = parts ]; then
                xdotool key ctrl+k
                sleep 0.3
                xdotool type --delay 30 "motors"
                sleep 0.3
                xdotool key Return
                sleep 2
            fi
            sleep 0.5
            take_picture "$folder/$page-$look-$1-$2.png"
            [ "$page" = parts ] && xdotool key Escape
        done
        xdotool key ctrl+shift+l
        sleep 0.5
    done
)

for size in ${SIZES:-1280x800 1920x1080}; do
    for scale in ${SCALES:-1 2}; do
        one_run "$size" "$scale"
    done
done
echo "$name: $(ls "$folder" | wc -l) pictures in $folder"
