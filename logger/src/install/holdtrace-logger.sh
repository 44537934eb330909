#!/bin/sh
# Runs one command of the logger as the logger's own user, with the service stopped meanwhile: two programs must not talk
# to one converter, nor write to one folder.
#
#   sudo holdtrace-logger check
#   sudo holdtrace-logger zero
#   sudo holdtrace-logger calibrate --at "100 bar" --reference "reference gauge 3"
#   sudo holdtrace-logger mend
set -eu
if [ "$#" -eq 0 ] || [ "$1" = -h ]; then
    sed -n '2,9s/^# \{0,1\}//p' "$0"
    exit 2
fi
if [ "$(id -u)" -ne 0 ]; then
    echo "holdtrace-logger: call it with sudo" >&2
    exit 2
fi
# Called by the service itself when it has started and when it has ended: the Avahi daemon, where there is one, says on the
# network that a logger is here. Its own user reads what the logger left: a file of that name could point anywhere.
services=/etc/avahi/services
if [ "$1" = announce ] || [ "$1" = withdraw ]; then
    [ -d "$services" ] || exit 0
    if [ "$1" = announce ] \
        && runuser -u holdtrace -- head -c 4096 /run/holdtrace/avahi.service >"$services/holdtrace.new" 2>/dev/null; then
        chmod 0644 "$services/holdtrace.new"
        mv "$services/holdtrace.new" "$services/holdtrace.service"
    else
        rm -f "$services/holdtrace.new" "$services/holdtrace.service"
    fi
    exit 0
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
# What systemd makes for the service.
install -d -o holdtrace -g holdtrace /var/cache/holdtrace /var/lib/holdtrace
status=0
runuser -u holdtrace -- /usr/bin/java -XX:+UseSerialGC -Djava.io.tmpdir=/var/cache/holdtrace \
    -Djna.tmpdir=/var/cache/holdtrace -Duser.home=/var/cache/holdtrace \
    -jar /opt/holdtrace/logger.jar "$@" || status=$?
exit "$status"
