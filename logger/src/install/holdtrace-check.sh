#!/bin/sh
# Checks the wiring as the logger's own user, with the logger stopped meanwhile: two programs must not talk to one
# converter. Arguments go to the check, such as --config FILE.
set -eu
if [ "$(id -u)" -ne 0 ]; then
    echo "holdtrace-check: call it with sudo" >&2
    exit 2
fi
was_running=no
if systemctl is-active --quiet holdtrace-logger; then
    was_running=yes
    systemctl stop holdtrace-logger
fi
restore() {
    if [ "$was_running" = yes ]; then
        systemctl start holdtrace-logger
    fi
}
trap restore EXIT
install -d -o holdtrace -g holdtrace /var/cache/holdtrace
status=0
runuser -u holdtrace -- /usr/bin/java -XX:+UseSerialGC -Djava.io.tmpdir=/var/cache/holdtrace \
    -Djna.tmpdir=/var/cache/holdtrace -Duser.home=/var/cache/holdtrace \
    -jar /opt/holdtrace/logger.jar check "$@" || status=$?
exit "$status"
