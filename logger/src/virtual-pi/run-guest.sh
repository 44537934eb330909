#!/bin/bash
# Boots the virtual Pi, lets it run SHARE/run.sh (as root, in /share), and returns its status.
# Usage: run-guest.sh WORK SHARE [TIMEOUT_S]      without SHARE/run.sh: a shell on this terminal
# The host ends of the guest's serial ports appear as links to ptys:
#   SHARE/uart -> guest /dev/ttyS0 (16550A)      SHARE/usb -> guest /dev/ttyUSB0 (FTDI)
# The guest console goes to SHARE/console.log; SHARE/mon (QEMU's monitor) and
# SHARE/ctl (a root shell in the guest, see ctl.sh) are UNIX sockets.
# DATA=file: an ext4 image that the guest mounts read-write on /data (its "SD card").
# CPUS, MEM: as at build time (see machine.sh).  ADS, GPIO, SPI: module parameters, e.g. ADS=bus_hz=400000,rdy=4
set -euo pipefail
HERE=$(cd "$(dirname "$0")" && pwd)
W=$(cd "$1" && pwd); S=$(cd "$2" && pwd); T=${3:-280}
. "$HERE/machine.sh"
rm -f "$S/rc" "$S/uart" "$S/usb" "$S/mon" "$S/ctl"
QEMU=(qemu-system-aarch64 "${MACHINE[@]}" -nodefaults -no-reboot -display none
    -kernel "$W/vmlinuz" -initrd "$W/initrd.cpio" -dtb "$W/pi.dtb"
    -append "console=ttyAMA0 quiet panic=-1 ADS_OPTS=${ADS:-} GPIO_OPTS=${GPIO:-} SPI_OPTS=${SPI:-}"
    -drive "file=$W/root.img,format=raw,if=none,id=root,readonly=on"
    -device virtio-blk-pci,drive=root -device virtio-rng-pci
    -virtfs "local,path=$S,mount_tag=share,security_model=none,multidevs=remap"
    -chardev "socket,id=ctl,path=$S/ctl,server=on,wait=off"
    -device virtio-serial-pci -device virtserialport,chardev=ctl
    -chardev pty,id=uart -device pci-serial,chardev=uart
    -device qemu-xhci -chardev pty,id=usb -device usb-serial,chardev=usb,always-plugged=on,id=usb0)
if [ -n "${DATA:-}" ]; then
    QEMU+=(-drive "file=$DATA,format=raw,if=none,id=data" -device virtio-blk-pci,drive=data)
fi
if [ ! -f "$S/run.sh" ]; then exec "${QEMU[@]}" -serial mon:stdio; fi

: > "$S/qemu.log"                                # looked into below, perhaps before QEMU has begun
"${QEMU[@]}" -serial "file:$S/console.log" -monitor "unix:$S/mon,server=on,wait=off" > "$S/qemu.log" 2>&1 &
P=$!
trap 'kill $P 2>/dev/null || true; rm -f "$S/uart" "$S/usb" "$S/mon" "$S/ctl"' EXIT
for n in uart usb; do
    for _ in $(seq 100); do
        pty=$(sed -n "s/.*redirected to \([^ ]*\) (label $n).*/\1/p" "$S/qemu.log")
        [ -n "$pty" ] && break; sleep 0.1
    done
    ln -sfn "$pty" "$S/$n"
done
end=$(( $(date +%s) + T ))
while kill -0 $P 2>/dev/null; do
    [ "$(date +%s)" -lt $end ] || { echo "time limit of $T s" >&2; exit 124; }
    sleep 0.2
done
[ -f "$S/rc" ] || { echo "the guest ended without a status" >&2; tail -5 "$S/console.log" >&2; exit 125; }
exit "$(cat "$S/rc")"
