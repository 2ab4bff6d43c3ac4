# Sourced: a screen in memory with the program on it, in a home of its own; all of it goes when the script ends.
# Expects $name (the script's, for messages); SIZE=WIDTHxHEIGHT and PROPWRIGHT=the program may be set from outside.
target=${CARGO_TARGET_DIR:-target}
program=${PROPWRIGHT:-}
if [ -z "$program" ]; then
    program=$target/debug/propwright
    [ -x "$program" ] || program=$target/release/propwright
fi
size=${SIZE:-1280x800}
work=$(mktemp -d)
server=""
window=""

finish() {
    local pid
    for pid in $window $server; do
        kill "$pid" 2>/dev/null || true
        wait "$pid" 2>/dev/null || true
    done
    rm -rf "$work"
}
trap finish EXIT

fail() {
    echo "$name: $*" >&2
    cat "$work/log" "$work/server" >&2 || true
    exit 1
}

open_screen() {
    # The server picks a free display itself and writes its number once it is ready.
    Xvfb -displayfd 3 -noreset -nolisten tcp -screen 0 "${size}x24" 3>"$work/display" 2>"$work/server" &
    server=$!
    for _ in $(seq 100); do
        [ -s "$work/display" ] && break
        kill -0 "$server" 2>/dev/null || fail "Xvfb did not start"
        sleep 0.1
    done
    [ -s "$work/display" ] || fail "Xvfb named no display within 10 s"
    DISPLAY=:$(cat "$work/display")
    export DISPLAY
    unset WAYLAND_DISPLAY WAYLAND_SOCKET
    # A home of its own: no settings from earlier runs, none left behind.
    export HOME=$work/home XDG_CONFIG_HOME=$work/home/config XDG_DATA_HOME=$work/home/data XDG_RUNTIME_DIR=$work/home/run
    mkdir -p "$XDG_CONFIG_HOME" "$XDG_DATA_HOME"
    mkdir -m 700 "$XDG_RUNTIME_DIR"
}

# Opens the program on the build file $1 and waits until it has drawn.
open_window() {
    PROPWRIGHT_TRACE=1 LIBGL_ALWAYS_SOFTWARE=1 "$program" "$1" >"$work/log" 2>&1 &
    window=$!
    for _ in $(seq 300); do
        grep -q first-frame "$work/log" && break
        kill -0 "$window" 2>/dev/null || fail "the program ended before its first frame"
        sleep 0.1
    done
    grep -q first-frame "$work/log" || fail "no first frame within 30 s"
    # The first frame asks for the report and the report asks for another frame: let both pass.
    sleep 1.5
    kill -0 "$window" 2>/dev/null || fail "the program ended after its first frame"
}

# Keeps what the screen shows as the picture $1.
take_picture() {
    xwd -root -silent -out "$work/screen.xwd"
    convert "xwd:$work/screen.xwd" "$1"
}
