#!/bin/sh
# Makes a release in dist: static programs for two kinds of machine, built twice
# (here, and in a fresh clone elsewhere with nothing cached) and compared byte for
# byte, tried on a bare root, with checksums and with lists of all they hold.
set -eu
GO=${GO:-go}
cyclonedx=github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod@v1.10.0
here=$(pwd)
test -z "$(git status --porcelain --untracked-files=no)" || { echo "There are changes that are not committed; a release is of a commit."; exit 1; }
sh server/release/compilers.sh
rm -rf dist && mkdir dist
sh server/release/build.sh "$here/dist"

again=$(mktemp -d)
trap 'chmod -R u+w "$again"; rm -rf "$again"' EXIT
git clone -q "$here" "$again/clone"
(cd "$again/clone" && GOCACHE=$again/cache make --no-print-directory bundle && GOCACHE=$again/cache sh server/release/build.sh "$again")
for program in dist/tautspan-*; do
  cmp "$program" "$again/$(basename "$program")"
  $GO run ./internal/tools/smoke "$program"
  GOFLAGS= $GO run $cyclonedx bin -json -std -licenses -noserial -notimestamp -output "$program.cdx.json" "$program"
done
# The list without what differs from one run to the next: a serial number and the time.
(cd assets && npm sbom --omit dev --sbom-format cyclonedx) | node -e '
  const list = JSON.parse(require("fs").readFileSync(0));
  delete list.serialNumber;
  delete list.metadata.timestamp;
  console.log(JSON.stringify(list, null, 2));' > dist/page.cdx.json
(cd dist && sha256sum tautspan-* page.cdx.json > SHA256SUMS && cat SHA256SUMS)
echo "built twice, the same bytes both times; both run on a bare root"
