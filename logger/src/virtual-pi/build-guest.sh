#!/bin/bash
# Builds a virtual Raspberry Pi (aarch64) from Debian packages into a work folder:
#   vmlinuz, initrd.cpio (with the simulators' modules), root.img (ext4: JRE 17 + busybox), pi.dtb.
# Usage: build-guest.sh WORK        (as root: mke2fs must keep file owners)
# REL=bookworm-backports with SOURCES=a file that lists that suite takes its newer kernel.
# Needs: apt-get install --no-install-recommends qemu-system-arm qemu-user-static \
#          gcc-aarch64-linux-gnu make kmod cpio e2fsprogs xz-utils device-tree-compiler
set -euo pipefail
HERE=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$1"; W=$(cd "$1" && pwd)
SOURCES=${SOURCES:-/etc/apt/sources.list.d/debian.sources}   # the host's own Debian mirror
[ -f "$SOURCES" ] || SOURCES=/etc/apt/sources.list
MODEL=${MODEL:-Raspberry Pi 4 Model B Rev 1.4}               # what Pi4J recognises the board by

# Status 3 where it is the package server that fails.
STEP=packages
trap 'rc=$?; [ $rc = 0 ] || [ $STEP != packages ] || exit 3' EXIT

# 1. An apt of our own for arm64; the host's dpkg stays as it is.
A=$W/apt HOSTARCH=$(dpkg --print-architecture)
mkdir -p "$A"/{etc/apt.conf.d,etc/preferences.d,sources,state/lists/partial,cache/archives/partial}
cp "$SOURCES" "$A/sources/"; : > "$A/status"
cat > "$A/conf" <<EOF
APT::Architecture "arm64"; APT::Architectures { "arm64"; "$HOSTARCH"; };
APT::Default-Release "${REL:-}"; APT::Install-Recommends "false"; APT::Sandbox::User "root";
Acquire::Languages "none";
Dir::Etc "$A/etc"; Dir::Etc::sourcelist "/dev/null"; Dir::Etc::sourceparts "$A/sources";
Dir::State "$A/state"; Dir::State::status "$A/status"; Dir::Cache "$A/cache";
EOF
apt64() { APT_CONFIG=$A/conf "$@"; }
apt64 apt-get -qq update
PKG=$(apt64 apt-cache depends linux-image-arm64 | awk '/Depends: linux-image/{print $2; exit}')
K=${PKG#linux-image-}                       # for example 6.1.0-56-arm64
KVER=$(apt64 apt-cache show "$PKG" | awk '/^Version:/{print $2; exit}')
echo "kernel $K ($KVER)"

# 2. Kernel, headers, and the (host architecture) kernel build tools.
rm -rf "$W/dl"; mkdir "$W/dl"; cd "$W/dl"
apt64 apt-get -qq download "$PKG" "linux-headers-$K" "linux-headers-${K%-arm64}-common"
KBUILD=$(apt64 apt-cache depends "linux-headers-$K" | awk '/Depends: linux-kbuild/{print $2}')
apt64 apt-get -qq download "${KBUILD%:*}:$HOSTARCH=$KVER"
STEP=guest
rm -rf "$W/k" "$W/h"; mkdir "$W/k" "$W/h"
dpkg-deb -x "$PKG"_*.deb "$W/k"
for d in linux-headers-*.deb "${KBUILD%:*}"_*.deb; do dpkg-deb -x "$d" "$W/h"; done
cp "$W/k/boot/vmlinuz-$K" "$W/vmlinuz"
HDR=$W/h/usr/src/linux-headers-$K
sed -i "s#/usr/src/#$W/h/usr/src/#" "$HDR/Makefile"

# 3. The simulator modules.
rm -rf "$W/kmod"; cp -r "$HERE/kmod" "$W/kmod"
make -s -C "$HDR" M="$W/kmod" ARCH=arm64 CROSS_COMPILE=aarch64-linux-gnu- \
     CC=aarch64-linux-gnu-gcc CONFIG_DEBUG_INFO_BTF_MODULES= modules

# 4. Initramfs: busybox and the stock modules, in load order.
cd "$W"
apt64 apt-get -qq autoclean > /dev/null
STEP=packages
apt64 apt-get -qq -y --download-only install \
     openjdk-17-jre-headless busybox-static i2c-tools gpiod
STEP=guest
rm -rf root; mkdir root
for d in apt/cache/archives/*.deb; do dpkg-deb -x "$d" root; done
depmod -b k "$K"
rm -rf ird; mkdir -p ird/{bin,mods,proc,sys,dev,root}
cp root/bin/busybox ird/bin/
: > ird/mods/order
for m in virtio_pci virtio_blk ext4 9pnet_virtio 9p i2c-dev xhci_pci ftdi_sio virtio_rng virtio_console spidev; do
    modprobe -d k -S "$K" --show-depends "$m" | awk '/^insmod/{print $2}'
done | awk '!seen[$0]++' | while read -r f; do
    b=$(basename "${f%.xz}"); [ -e "ird/mods/$b" ] && continue
    case $f in *.xz) xz -dc "$f" > "ird/mods/$b";; *) cp "$f" "ird/mods/$b";; esac
    echo "$b" >> ird/mods/order
done
mkdir ird/sim; cp kmod/*.ko ird/sim/
aarch64-linux-gnu-strip -g ird/sim/*.ko
install -m 755 "$HERE/guest-init" ird/init
(cd ird && find . | cpio -o -H newc --quiet) > initrd.cpio

# 5. Root file system: the unpacked packages, without what no test needs.
mkdir -p root/share root/data root/tmp root/proc root/sys root/dev root/run
rm -rf root/usr/share/{doc,man,locale,fonts,perl} root/usr/lib/*/perl* root/var/cache
JAVA=usr/lib/jvm/java-17-openjdk-arm64/bin/java
ln -sf "/$JAVA" root/usr/bin/java
# The class data archive (the package's postinst would make it) halves JVM start-up.
qemu-aarch64-static -L root "root/$JAVA" -Xshare:dump > /dev/null 2>&1 ||
    echo "no class data archive; the JVM will start slower"
size=$(( $(du -sm root | cut -f1) * 115 / 100 + 24 ))
rm -f root.img; mke2fs -q -t ext4 -O ^has_journal -d root root.img "${size}M"

# 6. Device tree of QEMU's virt machine with the model name of a Raspberry Pi.
. "$HERE/machine.sh"
qemu-system-aarch64 "${MACHINE[@]}" -nodefaults -machine dumpdtb=pi.dtb -display none > /dev/null
fdtput -t s pi.dtb / model "$MODEL"
ls -lh vmlinuz initrd.cpio root.img pi.dtb
