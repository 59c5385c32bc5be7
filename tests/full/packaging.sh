#!/usr/bin/env bash
# The Debian package in a clean system: built, installed, run as its user, upgraded, removed, purged. Needs root and
# Debian's package server, and builds a release, or takes the one in target/release where --built is given.
set -euo pipefail
cd "$(dirname "$0")/../.."

root=$(mktemp -d)/root
trap 'rm -rf "$(dirname "$root")"' EXIT
command -v debootstrap >/dev/null || { apt-get update -qq && apt-get install -y -qq debootstrap dpkg-dev; }

fail() { echo "packaging: $*" >&2; exit 1; }
inside() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }

# The unit gives the service no more than it needs.
exposure=$(systemd-analyze security --offline=true --no-pager examples/service/baybrief.service | sed -n 's/.*exposure level[^:]*: \([0-9.]*\).*/\1/p')
awk -v e="$exposure" 'BEGIN { exit !(e != "" && e <= 2.5) }' || fail "the unit's exposure is ${exposure:-unknown}, more than 2.5"

rm -f target/package/*.deb
DEB_VERSION=0.1.0-1 examples/packaging/build.sh "$@"
DEB_VERSION=0.1.0-2 examples/packaging/build.sh --built
first=$(echo target/package/baybrief_0.1.0-1_*.deb)
second=$(echo target/package/baybrief_0.1.0-2_*.deb)
[ -f "$first" ] && [ -f "$second" ] || fail "no package was made"

suite=$(. /etc/os-release && echo "$VERSION_CODENAME")
debootstrap --variant=minbase --include=adduser,ca-certificates "$suite" "$root" >/dev/null
cp "$first" "$second" "$root/tmp/"

inside apt-get install -y -qq "/tmp/$(basename "$first")" >/dev/null || fail "it cannot be installed"
inside baybrief --version
for place in /etc/baybrief/shop.toml /var/lib/baybrief/inbox /var/lib/baybrief/out /usr/share/man/man1/baybrief.1 \
    /usr/share/man/man1/baybrief-watch.1 /usr/share/bash-completion/completions/baybrief \
    /usr/share/applications/baybrief.desktop /usr/lib/systemd/system/baybrief.service; do
    [ -e "$root$place" ] || [ -e "$root${place#/usr}" ] || [ -e "$root$place.gz" ] || fail "$place is not there"
done
[ "$(inside stat -c '%U:%G %a' /var/lib/baybrief/inbox)" = "baybrief:baybrief 2770" ] || fail "the inbox is not its user's"

# An executable finds itself by /proc.
mount -t proc proc "$root/proc" && trap 'umount "$root/proc"; rm -rf "$(dirname "$root")"' EXIT

# The libraries are found where the package puts them, and count as built in.
inside baybrief plugins > "$root/tmp/plugins" || { cat "$root/tmp/plugins"; fail "the plugins are not found"; }
grep -q "/usr/lib/baybrief/" "$root/tmp/plugins" && ! grep -q "foreign" "$root/tmp/plugins" || fail "the plugins are not built in"

# A job as its user, without anything of this machine.
inside su -s /bin/sh baybrief -c 'cd /var/lib/baybrief && baybrief demo --out /var/lib/baybrief/demo' || fail "the demo does not run"
head -c 5 "$root/var/lib/baybrief/demo/out/demo-job/report.pdf" | grep -q '%PDF-' || fail "the demo made no report"

# A file that the shop changed outlives the upgrade; so does what the program made.
echo '# ours' >> "$root/etc/baybrief/shop.toml"
inside apt-get install -y -qq "/tmp/$(basename "$second")" >/dev/null || fail "it cannot be upgraded"
[ "$(inside dpkg-query -W -f '${Version}' baybrief)" = 0.1.0-2 ] || fail "the upgrade is not in force"
grep -q '# ours' "$root/etc/baybrief/shop.toml" || fail "the upgrade changed the shop's settings"

inside apt-get remove -y -qq baybrief >/dev/null
! inside sh -c 'command -v baybrief' || fail "it is still there after its removal"
[ -f "$root/etc/baybrief/shop.toml" ] || fail "its removal took the settings"
inside apt-get purge -y -qq baybrief >/dev/null
[ ! -e "$root/etc/baybrief/shop.toml" ] || fail "the purge left the settings"
[ -f "$root/var/lib/baybrief/demo/out/demo-job/report.pdf" ] || fail "the purge took the shop's evidence"
echo "packaging: installed, run, upgraded, removed and purged; the unit's exposure is $exposure"
