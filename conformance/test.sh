#!/usr/bin/env bash
# Proves the house against tools that nobody here wrote: brings the missing ones, then runs every test.
# Usage: bash conformance/test.sh [maven arguments]
# Ends with a line "N passed, N failed, N skipped". Exit: 0 all passed, 1 a test or the build failed, 69 a peer is missing.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
export PATH="$PATH:/usr/sbin:/sbin"
python=/usr/bin/python3

have() { command -v "$1" >/dev/null 2>&1; }

jdk_is_17_or_later() {
  local compiler=${JAVA_HOME:+$JAVA_HOME/bin/}javac major
  have "$compiler" || return 1
  major=$("$compiler" -version 2>&1 | sed -n 's/^javac \([0-9]*\).*/\1/p')
  [ "${major:-0}" -ge 17 ]
}

fonts_are_there() { have fc-list && [ -n "$(fc-list 2>/dev/null | head -n 1)" ]; }

# One line a missing package, with what it is needed for.
missing_packages() {
  jdk_is_17_or_later || echo "default-jdk-headless a JDK of Java 17 or later"
  have mvn || echo "maven the build"
  fonts_are_there || echo "fonts-dejavu-core letters in drawn photographs"
  have fc-list || echo "fontconfig letters in drawn photographs"
  local tool
  for tool in dcmdump dcmftest dump2dcm storescp storescu echoscu findscu; do
    have "$tool" || { echo "dcmtk $tool"; break; }
  done
  have dciodvfy || echo "dicom3tools dciodvfy"
  have Orthanc || echo "orthanc an archive to send to"
  { [ -x "$python" ] && "$python" -c 'import pydicom' 2>/dev/null; } || echo "python3-pydicom a second reader"
  for tool in jpegtran djpeg cjpeg; do
    have "$tool" || { echo "libjpeg-turbo-progs $tool"; break; }
  done
  { [ -x "$python" ] && "$python" -c 'import PIL' 2>/dev/null; } || echo "python3-pil a second reader of pictures"
  { [ -x "$python" ] && "$python" -c 'import jsonschema' 2>/dev/null; } || echo "python3-jsonschema a second reader of reports"
  [ -f /usr/share/java/pixelmed.jar ] || echo "libpixelmed-java a toolkit in Java"
  have chromium || echo "chromium a browser"
  have chromedriver || echo "chromium-driver a browser that tests can drive"
  have openssl || echo "openssl certificates for TLS"
  have exiftool || echo "libimage-exiftool-perl exiftool"
}

refuse() {
  printf 'conformance/test.sh: %s\n' "$1" >&2
  exit 69
}

# Two attempts, for a mirror may answer late.
apt() {
  local attempt
  for attempt in 1 2; do
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o Acquire::Retries=3 "$@" >&2 && return 0
    echo "apt-get $1: attempt $attempt failed" >&2
  done
  return 1
}

install_peers() {
  local missing packages
  missing=$(missing_packages)
  [ -n "$missing" ] || return 0
  packages=$(cut -d' ' -f1 <<<"$missing" | sort -u | tr '\n' ' ')
  printf 'Missing peers:\n%s\n' "$missing" >&2
  have apt-get || refuse "these Debian packages are missing and apt-get is not here; install their like: $packages"
  if [ "$(id -u)" -eq 0 ]; then
    as_root=()
  elif have sudo && sudo -n true 2>/dev/null; then
    as_root=(sudo -n)
  else
    refuse "these packages are missing and this user may not install them; run as root: apt-get install $packages"
  fi
  apt update || refuse "apt-get update failed, so these packages are still missing: $packages"
  # shellcheck disable=SC2086 # one word a package
  apt install --no-install-recommends $packages || refuse "apt-get could not install: $packages"
  missing=$(missing_packages)
  [ -z "$missing" ] || refuse "still missing after the installation: $(tr '\n' ';' <<<"$missing")"
}

as_root=()
install_peers
cd "$root"
find . -path '*/target/surefire-reports/*.xml' -delete
began=$SECONDS
status=0
mvn -B -fae "$@" verify || status=1
printf '\nTests ran in %d s.\n' $((SECONDS - began))
"$python" conformance/counts.py . || status=1
exit "$status"
