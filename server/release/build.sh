#!/bin/sh
# Builds the static programs into a folder, from the checkout it is called in and
# with the page that is bundled there: build.sh FOLDER
set -eu
for target in amd64/x86_64 arm64/aarch64; do
  arch=${target%/*}
  echo "building tautspan-linux-$arch"
  CGO_ENABLED=1 GOOS=linux GOARCH=$arch CC=${target#*/}-linux-gnu-gcc ${GO:-go} build -trimpath -buildvcs=true \
    -tags netgo,osusergo,sqlite_omit_load_extension -ldflags '-s -w -linkmode external -extldflags -static' \
    -o "$1/tautspan-linux-$arch" .
done
