#!/bin/sh
# Installs or renews the Holdtrace logger on a Raspberry Pi (64-bit Raspberry Pi OS or Debian).
#
#   sudo sh install.sh [--i2c] [--spi] [--gadget] [logger.jar]
#   sudo sh install.sh --remove
#
# --i2c, --spi, --gadget switch the bus, or the USB socket as a serial port, on in the boot configuration (a copy of the
# old one is kept beside it); they take effect at the next start. --remove takes the program away; sessions, calibration
# and configuration stay.
set -eu

here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
i2c=no spi=no gadget=no remove=no jar=
for word in "$@"; do
    case $word in
        --i2c) i2c=yes ;;
        --spi) spi=yes ;;
        --gadget) gadget=yes ;;
        --remove) remove=yes ;;
        -h | --help)
            sed -n '2,9s/^# \{0,1\}//p' "$0"
            exit 0
            ;;
        -*)
            echo "install.sh: unknown option $word; known are --i2c --spi --gadget --remove" >&2
            exit 2
            ;;
        *) jar=$word ;;
    esac
done

say() { echo "install.sh: $*"; }
fail() {
    echo "install.sh: $*" >&2
    exit 1
}

# Also in a system that is being put together and does not run yet.
reload() {
    systemctl daemon-reload 2>/dev/null || say "no systemd runs here: the change takes effect when one does"
}

[ "$(id -u)" -eq 0 ] || fail "call it with sudo"
command -v systemctl >/dev/null || fail "no systemd here; see docs/logger.md for starting the logger by hand"

if [ "$remove" = yes ]; then
    systemctl disable --now holdtrace-logger 2>/dev/null || true
    rm -f /etc/systemd/system/holdtrace-logger.service /etc/udev/rules.d/60-holdtrace.rules /usr/local/sbin/holdtrace-logger
    rm -f /etc/avahi/services/holdtrace.service
    rm -rf /opt/holdtrace /var/cache/holdtrace
    reload
    say "removed. Sessions and calibration are still in /var/lib/holdtrace, the configuration in /etc/holdtrace."
    exit 0
fi

if [ -z "$jar" ]; then
    for candidate in "$here/logger.jar" "$here/../../target/logger.jar"; do
        if [ -f "$candidate" ]; then
            jar=$candidate
            break
        fi
    done
fi
[ -n "$jar" ] && [ -f "$jar" ] || fail "no logger.jar found; name it: sudo sh install.sh path/to/logger.jar"

# Java 17 or newer.
java_version() {
    "$1" -version 2>&1 | sed -n 's/.*version "\([0-9]*\).*/\1/p' | head -n 1
}
if [ ! -x /usr/bin/java ] || [ "$(java_version /usr/bin/java)" -lt 17 ]; then
    say "installing a Java run-time"
    apt-get install -y --no-install-recommends openjdk-17-jre-headless \
        || apt-get install -y --no-install-recommends default-jre-headless \
        || fail "no Java 17 or newer could be installed; install one and call this again"
fi
[ "$(java_version /usr/bin/java)" -ge 17 ] || fail "/usr/bin/java is older than 17"

# A user without privileges, in the groups that own buses, pins and serial ports.
for group in i2c spi gpio; do
    getent group "$group" >/dev/null || groupadd --system "$group"
done
getent group holdtrace >/dev/null || groupadd --system holdtrace
getent passwd holdtrace >/dev/null \
    || useradd --system --gid holdtrace --home-dir /var/cache/holdtrace --no-create-home --shell /usr/sbin/nologin holdtrace
usermod -a -G i2c,spi,gpio,dialout holdtrace

# The program: written beside the old one, then moved over it, so that a power cut leaves one of them whole.
install -d /opt/holdtrace
install -m 0644 "$jar" /opt/holdtrace/logger.jar.new
sync /opt/holdtrace/logger.jar.new
mv /opt/holdtrace/logger.jar.new /opt/holdtrace/logger.jar

install -d -m 0755 /etc/holdtrace
if [ -f /etc/holdtrace/logger.json ]; then
    say "keeping /etc/holdtrace/logger.json as it is"
else
    install -m 0644 "$here/logger.json" /etc/holdtrace/logger.json
    say "wrote /etc/holdtrace/logger.json: put your transducer's range into it"
fi
install -m 0644 "$here/holdtrace-logger.service" /etc/systemd/system/holdtrace-logger.service
if ! /usr/bin/java -XX:+UseShenandoahGC -version >/dev/null 2>&1; then
    say "this Java collects memory by stopping the program: at 500 samples a second and more some may be late"
    sed -i 's/-XX:+UseShenandoahGC/-XX:+UseSerialGC/' /etc/systemd/system/holdtrace-logger.service
fi
install -d /etc/udev/rules.d /usr/local/sbin
install -m 0644 "$here/60-holdtrace.rules" /etc/udev/rules.d/60-holdtrace.rules
install -m 0755 "$here/holdtrace-logger.sh" /usr/local/sbin/holdtrace-logger
{ udevadm control --reload && udevadm trigger; } 2>/dev/null || true

# Boot configuration, only where asked for.
boot=/boot/firmware
[ -f "$boot/config.txt" ] || boot=/boot
changed=no
add_line() {
    # add_line FILE LINE: once, with a copy of what was there before.
    if ! grep -qxF "$2" "$1"; then
        [ -f "$1.before-holdtrace" ] || cp "$1" "$1.before-holdtrace"
        # Below a [board] heading the line would hold for that board only.
        printf '\n[all]\n%s\n' "$2" >>"$1"
        changed=yes
    fi
}
if [ "$i2c$spi$gadget" != nonono ]; then
    [ -f "$boot/config.txt" ] || fail "no config.txt below /boot: switch the buses on by your system's own means"
fi
if [ "$i2c" = yes ]; then
    add_line "$boot/config.txt" "dtparam=i2c_arm=on"
    add_line "$boot/config.txt" "dtparam=i2c_arm_baudrate=400000"
    echo i2c-dev >/etc/modules-load.d/holdtrace-i2c.conf
    modprobe i2c-dev 2>/dev/null || true
fi
if [ "$spi" = yes ]; then
    add_line "$boot/config.txt" "dtparam=spi=on"
fi
if [ "$gadget" = yes ]; then
    add_line "$boot/config.txt" "dtoverlay=dwc2,dr_mode=peripheral"
    printf 'dwc2\ng_serial\n' >/etc/modules-load.d/holdtrace-gadget.conf
    # A login prompt there would answer the analyser.
    systemctl mask serial-getty@ttyGS0.service >/dev/null 2>&1 || true
fi

reload
systemctl enable holdtrace-logger >/dev/null
if [ "$changed" = yes ]; then
    say "boot configuration changed: start the computer anew, then: sudo holdtrace-logger check"
else
    if systemctl restart holdtrace-logger 2>/dev/null; then
        say "done. Check the wiring with: sudo holdtrace-logger check"
    else
        say "installed, but it did not start. See journalctl -u holdtrace-logger, and: sudo holdtrace-logger check"
    fi
fi
