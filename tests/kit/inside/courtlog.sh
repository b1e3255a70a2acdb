#!/bin/sh
# Starts courtlog from this folder. The first time it is installed here, without a network.
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd) || exit 1
if [ ! -t 0 ] && [ $# = 0 ] && [ -n "$DISPLAY$WAYLAND_DISPLAY" ] && command -v x-terminal-emulator >/dev/null; then
    exec x-terminal-emulator -e sh "$here/@STARTER@"
fi
# A window of the desktop may not know where Python was put on macOS.
PATH=$PATH:/usr/local/bin:/opt/homebrew/bin
for version in @PYTHONS@; do
    PATH=$PATH:/Library/Frameworks/Python.framework/Versions/$version/bin
done
for version in @PYTHONS@ 3; do
    python=$(command -v "python$version") || continue
    # Without developer tools, the python3 of macOS asks to install them.
    if [ "$(uname)" = Darwin ] && [ "$python" = /usr/bin/python3 ] && ! xcode-select -p >/dev/null 2>&1; then
        continue
    fi
    if "$python" "$here/start.py" --fits >/dev/null 2>&1; then
        exec "$python" "$here/start.py" "$@"
    fi
done
echo "@NO_PYTHON@" >&2
if [ -t 0 ]; then
    read -r _
fi
exit 1
