# What bin/up, bin/test and bin/lock share: finding Python, filling .venv, asking the package manager.
# Sourced, never run. POSIX sh, so that it also runs where there is no bash.

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd "$root" || exit 1
venv=$root/.venv

say() { printf '%s\n' "$*"; }
stop() { printf 'Stopped: %s\n' "$*" >&2; exit 1; }

# --- Python -----------------------------------------------------------------------------------------

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; }

find_python() {
    if [ -n "${PYTHON:-}" ]; then new_enough "$PYTHON" && say "$PYTHON"; return; fi
    for name in python3 python3.14 python3.13 python3.12 python3.11; do
        if new_enough "$name"; then say "$name"; return; fi
    done
    return 1
}

make_venv() {
    if new_enough "$venv/bin/python"; then return; fi
    python=$(find_python) || stop "Python 3.11 or newer is needed and was not found. Install it, or name it: PYTHON=/path/to/python3.11"
    say "Making .venv with $("$python" --version)"
    if ! "$python" -c 'import ensurepip, venv' >/dev/null 2>&1; then
        # Debian and Ubuntu keep these two in a package of their own, one for each Python.
        package=$("$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')
        apt_install "$package" || stop "this Python cannot make virtual environments. Run: $(by_hand "$package")"
    fi
    rm -rf "$venv"
    "$python" -m venv "$venv" || stop "$python could not make .venv (its own words are above)."
}

# install_lock LOCK: installs the pinned, hashed packages of LOCK, only when LOCK has changed since the last time.
install_lock() {
    stamp=$venv/installed-$1
    if cmp -s "$1" "$stamp"; then return; fi
    say "Installing what $1 pins (up to two minutes the first time)"
    with_uv "$1" || with_pip -r "$1" --require-hashes \
        || stop "the packages in $1 could not be installed. Is this machine online?"
    cp "$1" "$stamp"
}

# uv checks the same hashes and takes a quarter of the time; where it cannot be had or does not get through, pip does it.
with_pip() { "$venv/bin/python" -m pip install -qq --disable-pip-version-check --no-input "$@"; }
with_uv() {
    { [ -x "$venv/bin/uv" ] || with_pip "$uv_pin"; } >/dev/null 2>&1 \
        && "$venv/bin/uv" pip install -q --python "$venv/bin/python" --require-hashes -r "$1" 2>/dev/null
}
uv_pin=uv==0.13.9

# --- The system's own packages ----------------------------------------------------------------------

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"; else sudo -n "$@"; fi
}

# by_hand PACKAGE...: the line that a person can type where this script may not install.
by_hand() {
    if [ "$(id -u)" = 0 ]; then say "apt-get update && apt-get install $*"
    else say "sudo apt-get update && sudo apt-get install $*"; fi
}

may_install() {
    command -v apt-get >/dev/null 2>&1 || return 1
    [ "$(id -u)" = 0 ] || sudo -n true >/dev/null 2>&1
}

# apt_install PACKAGE...: fails where this is no Debian or Ubuntu, or where installing would need a password.
apt_install() {
    may_install || return 1
    say "Installing with apt-get: $*"
    apt_log=$(mktemp)
    patience=60 # tries, five seconds apart
    until apt_get update -qq && apt_get install -y -qq --no-install-recommends "$@"; do
        # Another apt at work, such as the nightly upgrade, is waited for; any other failure is final.
        if grep -q 'Could not get lock\|Unable to lock\|is another process using it' "$apt_log" && [ "$patience" -gt 0 ]; then
            [ "$patience" -lt 60 ] || say "Another apt-get is at work: waiting for it, five minutes at most."
            patience=$((patience - 1))
            sleep "${APT_PAUSE:-5}"
            continue
        fi
        tail -n 5 "$apt_log" >&2
        rm -f "$apt_log"
        return 1
    done
    rm -f "$apt_log"
}
apt_get() { as_root env DEBIAN_FRONTEND=noninteractive apt-get "$@" >"$apt_log" 2>&1 </dev/null; }

pdf_packages='libpangoft2-1.0-0 libharfbuzz-subset0 fonts-liberation fonts-dejavu-core'

# WeasyPrint warns where the library that cuts fonts down is missing, and raises where Pango is.
pdf_libraries_complete() {
    "$venv/bin/python" -W error::DeprecationWarning -c 'import weasyprint' >/dev/null 2>&1 || return 1
    # The papers are set in Liberation Serif; in a wider type lines break elsewhere.
    ! command -v fc-list >/dev/null 2>&1 || fc-list 'Liberation Serif' | grep -q .
}
pdf_works() { "$venv/bin/python" -c 'import weasyprint' >/dev/null 2>&1; }

install_pdf_libraries() {
    if pdf_libraries_complete; then return; fi
    # shellcheck disable=SC2086  # one word a package
    apt_install $pdf_packages && pdf_libraries_complete
}

# what_pdf_needs: how to get WeasyPrint's libraries on this kind of machine.
what_pdf_needs() {
    if command -v apt-get >/dev/null 2>&1; then by_hand "$pdf_packages"
    elif command -v brew >/dev/null 2>&1; then say "brew install pango"
    elif command -v dnf >/dev/null 2>&1; then say "sudo dnf install pango liberation-serif-fonts dejavu-serif-fonts"
    elif command -v pacman >/dev/null 2>&1; then say "sudo pacman -S pango ttf-liberation ttf-dejavu"
    elif command -v apk >/dev/null 2>&1; then say "apk add pango harfbuzz-subset font-liberation font-dejavu"
    else say "install Pango 1.44 or newer with this system's package manager"; fi
}
