#!/usr/bin/env bash
# Installs the package into a new Debian of its own, does the main job there, and takes it away again without a trace.
# Usage: tests/package/installed.sh PACKAGE.deb SUITE WORK SOURCES      as root; ends with 77 where it cannot be tried
set -euo pipefail
deb=$(readlink -f "$1") suite=$2 work=$3 sources=$(readlink -f "$4")

skip() { echo "SKIPPED: $*" && exit 77; }
[[ $EUID -eq 0 ]] || skip "only root makes a new root folder"
command -v debootstrap >/dev/null || skip "debootstrap is not installed"

echo "== lintian"
if command -v lintian >/dev/null; then
    lintian --fail-on error,warning --suppress-tags-from-file "$sources/tests/package/lintian-tags" "$deb"
else
    echo "lintian is not installed: left out"
fi

root=$work/$suite
mkdir -p "$work"
end() {
    for place in dev/pts proc; do mountpoint -q "$root/$place" && umount "$root/$place" || true; done
    rm -rf "$root"
}
trap end EXIT
[[ -x $root/usr/bin/dpkg ]] || debootstrap --variant=minbase "$suite" "$root" >"$work/debootstrap.txt" 2>&1 ||
    skip "no new $suite: $(tail -1 "$work/debootstrap.txt")"
mount -t proc proc "$root/proc" && mount -t devpts -o newinstance,ptmxmode=0666 devpts "$root/dev/pts" ||
    skip "this machine may not mount what a terminal needs"
ln -sf pts/ptmx "$root/dev/ptmx"

inside() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 HOME=/tmp/person DEBIAN_FRONTEND=noninteractive "$@"; }
# What other packages leave behind (caches, logs, their own set-up) is not ours to count.
ours() { (cd "$root" && find . -xdev \( -path ./proc -o -path ./dev -o -path ./tmp -o -path ./var -o -path ./run \) -prune -o -print) |
    grep -i zeroline || true; }

echo "== install"
cp "$deb" "$root/tmp/zeroline.deb"
cp -r "$sources/fixtures/demonstration" "$root/tmp/files"
inside apt-get update >/dev/null
inside apt-get install -y --no-install-recommends /tmp/zeroline.deb >"$work/install.txt" 2>&1 || { tail -20 "$work/install.txt" && exit 1; }
inside zeroline --version
[[ -s $root/usr/share/man/man1/zeroline.1.gz ]] || { echo "no manual page" && exit 1; }

echo "== the main job"
inside bash -euc '
    cd /tmp
    zeroline virtual-bench --order files/order.json --instrument files/instrument.json --follow --link port --panel panel.json >bench.txt 2>&1 &
    trap "kill %1" EXIT
    for _ in $(seq 100); do [[ -e port ]] && break; sleep 0.1; done
    zeroline --bench files/bench.json verify --yes --order files/order.json --instrument files/instrument.json --port port \
        --panel panel.json --out record --operator demonstration --place "virtual bench"
    zeroline recheck record
    zeroline print record --out page.pdf
    zeroline validate >/dev/null'

echo "== removed again"
inside bash -c 'rm -rf "$HOME"/.local "$HOME"/.config'
inside apt-get purge -y zeroline >/dev/null 2>&1
left=$(ours)
[[ -z $left ]] || { echo "left behind: $left" && exit 1; }
echo "installed, did the main job, and is gone"
