#!/usr/bin/env bash
# Runs a command on a display of its own that nobody sees: on-display.sh x11|wayland COMMAND …
set -euo pipefail

kind=$1
shift
case $kind in
  x11)
    exec xvfb-run --auto-servernum --server-args='-screen 0 1366x900x24' "$@"
    ;;
  wayland)
    XDG_RUNTIME_DIR=$(mktemp -d)
    export XDG_RUNTIME_DIR
    export WAYLAND_DISPLAY=wayland-gambrel
    unset DISPLAY
    # The long name of the backend: Weston 10 knows no other, and later ones know it too.
    weston --backend=headless-backend.so --socket="$WAYLAND_DISPLAY" --width=1366 --height=900 --idle-time=0 \
      --log="$XDG_RUNTIME_DIR/weston.log" &
    compositor=$!
    trap 'kill "$compositor" 2>/dev/null || true; wait "$compositor" 2>/dev/null || true; rm -rf "$XDG_RUNTIME_DIR"' EXIT
    for _ in $(seq 100); do
      if [ -S "$XDG_RUNTIME_DIR/$WAYLAND_DISPLAY" ]; then break; fi
      sleep 0.1
    done
    if [ ! -S "$XDG_RUNTIME_DIR/$WAYLAND_DISPLAY" ]; then
      echo 'The compositor did not start:' >&2
      cat "$XDG_RUNTIME_DIR/weston.log" >&2
      exit 1
    fi
    "$@"
    ;;
  *)
    echo "Say x11 or wayland, not $kind." >&2
    exit 2
    ;;
esac
