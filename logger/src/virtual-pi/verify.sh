#!/usr/bin/env bash
# Runs the shipped logger on an emulated Raspberry Pi, and the shipped analyser at the other end of its cable.
# Usage: verify.sh [WORKDIR]      Debian or Ubuntu; as root, and with the package server at the first time
# Builds the project's jars where they are missing, and the guest into WORKDIR (1.4 GB, kept for the next time).
# Where the guest cannot be built: one line that says why, and status 0. A failing test is a failure.
set -euo pipefail
HERE=$(cd "$(dirname "$0")" && pwd)
ROOT=$(cd "$HERE/../../.." && pwd)
WORK=${1:-$ROOT/logger/target/virtual-pi}

skip() { echo "virtual Pi: skipped: $*"; exit 0; }

PACKAGES=(qemu-system-arm qemu-user-static gcc-aarch64-linux-gnu make kmod cpio e2fsprogs xz-utils device-tree-compiler socat)
missing=()
for package in "${PACKAGES[@]}"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
done
# What the guest is made of, without the folder's name: it changes, the guest is built anew.
made_of=$(cd "$HERE" && cat build-guest.sh guest-init machine.sh kmod/* | sha256sum | cut -d' ' -f1)
built() { [ "$(cat "$WORK/made-of" 2>/dev/null)" = "$made_of" ]; }

if [ ${#missing[@]} -gt 0 ] || ! built; then
    command -v apt-get >/dev/null || skip "there is no apt-get here to get its parts with"
    [ "$(id -u)" = 0 ] || skip "building it needs root; missing packages: ${missing[*]:-none}"
fi
mkdir -p "$WORK"
# Sockets in it may have names of 107 characters at most.
[ ${#WORK} -lt 80 ] || skip "the path of $WORK is too long; name a shorter one"
if [ ${#missing[@]} -gt 0 ]; then
    export DEBIAN_FRONTEND=noninteractive
    if ! { apt-get -q update && apt-get -q install -y --no-install-recommends "${missing[@]}"; } > "$WORK/apt.log" 2>&1; then
        skip "packages are missing and cannot be installed (${missing[*]}): $(grep -m1 '^E:' "$WORK/apt.log" || tail -n 1 "$WORK/apt.log")"
    fi
fi
if ! built; then
    rm -f "$WORK/made-of"
    status=0
    "$HERE/build-guest.sh" "$WORK" > "$WORK/build.log" 2>&1 || status=$?
    # Without the package server there is no guest; anything else that fails is a fault of ours.
    if [ $status = 3 ]; then
        skip "the guest's packages cannot be fetched: $(grep -m1 -E '^(E|W): ' "$WORK/build.log" || tail -n 1 "$WORK/build.log")"
    elif [ $status != 0 ]; then
        tail -n 20 "$WORK/build.log" >&2
        echo "virtual Pi: the guest cannot be built; see $WORK/build.log" >&2
        exit 1
    fi
    echo "$made_of" > "$WORK/made-of"
fi

cd "$ROOT"
jars=(logger/target/logger.jar analyser/target/analyser.jar)
[ -f "${jars[0]}" ] && [ -f "${jars[1]}" ] || mvn -B -q -DskipTests package
mvn -B -pl common,logger verify -Dvirtual-pi="$WORK" -Dit.test=VirtualPiIT -Dtest=NoUnitTest \
    -Dsurefire.failIfNoSpecifiedTests=false -Dfailsafe.failIfNoSpecifiedTests=false
