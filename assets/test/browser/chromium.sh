#!/bin/sh
# Makes sure there is a Chromium for the browser tests: uses the one that is
# there, else installs the system's package where that is allowed, else says
# what is missing. CHROMIUM=/path names one of your own.
for name in "$CHROMIUM" chromium chromium-browser; do
  [ -n "$name" ] && command -v "$name" >/dev/null && exit 0
done

if [ "$(id -u)" = 0 ]; then
  as_root=
elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
  as_root="sudo -n"
else
  echo "The browser tests need Chromium. It is not here, and it cannot be installed without root."
  echo "Install the package chromium, or set CHROMIUM to the path of one."
  exit 1
fi

echo "Installing Chromium from the system's packages."
if command -v apt-get >/dev/null; then
  $as_root apt-get update -q && $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends chromium
elif command -v dnf >/dev/null; then
  $as_root dnf install -y chromium
elif command -v apk >/dev/null; then
  $as_root apk add chromium
elif command -v pacman >/dev/null; then
  $as_root pacman -S --noconfirm chromium
else
  echo "No known package manager is here; install Chromium by hand or set CHROMIUM to its path."
fi >&2

for name in chromium chromium-browser; do
  command -v "$name" >/dev/null && exit 0
done
echo "The browser tests need Chromium, and installing it did not work; see above."
exit 1
