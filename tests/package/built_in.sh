#!/usr/bin/env bash
# Builds the sources in a new Debian of its own and runs the tests there, as `tests/run --quick` does here.
# Usage: tests/package/built_in.sh SUITE WORK SOURCES      as root; ends with 77 where it cannot be tried
set -euo pipefail
suite=$1 work=$2 sources=$(readlink -f "$3")

skip() { echo "SKIPPED: $*" && exit 77; }
[[ $EUID -eq 0 ]] || skip "only root makes a new root folder"
command -v debootstrap >/dev/null || skip "debootstrap is not installed"

root=$work/$suite
mkdir -p "$work"
end() {
    for place in dev/pts dev/shm proc; do mountpoint -q "$root/$place" && umount "$root/$place" || true; done
    rm -rf "$root"
}
trap end EXIT
[[ -x $root/usr/bin/dpkg ]] || debootstrap --variant=minbase --include=ca-certificates,git "$suite" "$root" >"$work/debootstrap.txt" 2>&1 ||
    skip "no new $suite: $(tail -1 "$work/debootstrap.txt")"
mount -t proc proc "$root/proc" && mount -t devpts -o newinstance,ptmxmode=0666 devpts "$root/dev/pts" &&
    mkdir -p "$root/dev/shm" && mount -t tmpfs tmpfs "$root/dev/shm" || skip "this machine may not mount what a terminal needs"
ln -sf pts/ptmx "$root/dev/ptmx"

# What is committed, as one who clones it has it.
git -c safe.directory="$sources" clone -q "$sources" "$root/src"
chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 HOME=/root DEBIAN_FRONTEND=noninteractive bash -euc '
    apt-get update >/dev/null
    cat /etc/debian_version
    cd /src && tests/run --quick'
