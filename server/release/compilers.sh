#!/bin/sh
# Makes sure there is a C compiler for every target of a release, and an
# emulator to try the foreign one: uses what is there, else installs the system's
# packages where that is allowed, else says what is missing.
need() { # COMMAND PACKAGE...
  command -v "$1" >/dev/null && return
  wanted=$1
  shift
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    apt-get update -q && DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "$@"
  fi >&2
  command -v "$wanted" >/dev/null || { echo "A release needs $wanted (packages: $*)." >&2; exit 1; }
}
need x86_64-linux-gnu-gcc gcc-x86-64-linux-gnu libc6-dev-amd64-cross
need aarch64-linux-gnu-gcc gcc-aarch64-linux-gnu libc6-dev-arm64-cross
case $(uname -m) in
  aarch64 | arm64) need qemu-x86_64-static qemu-user-static ;;
  *) need qemu-aarch64-static qemu-user-static ;;
esac
