package main

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// filesPath is where files lie whose names carry the hash of their content.
const filesPath = "/files/"

// site is the app being built. Files are added in the order in which they name
// each other: what is named first.
type site struct {
	urls     map[string]string // source path, as the sources name it, to URL
	files    map[string][]byte // URL to content
	later    map[string]bool   // URLs of what only some riders load
	first    []string          // URLs of scripts that the page's own imports at once
	packages map[string]bool   // folders of the npm packages in the page's scripts
	version  string
}

func newSite() *site {
	return &site{urls: map[string]string{}, files: map[string][]byte{}, later: map[string]bool{}, packages: map[string]bool{}}
}

// add takes in a file under a name with its hash and returns its URL.
func (s *site) add(source string, content []byte) string {
	sum := sha256.Sum256(content)
	ext := path.Ext(source)
	url := filesPath + strings.TrimSuffix(path.Base(source), ext) + "-" + hex.EncodeToString(sum[:5]) + ext
	s.urls[source] = url
	s.files[url] = content
	return url
}

// url returns the URL of a source the page or the manifest names.
func (s *site) url(source, namedBy string) (string, error) {
	url, ok := s.urls[source]
	if !ok {
		return "", fmt.Errorf("%s names %q, which is not among the app's sources", namedBy, source)
	}
	return url, nil
}

// addStatic takes in the files that stay as they are.
func (s *site) addStatic(source string) error {
	icons, err := filepath.Glob(filepath.Join(source, "icons", "*.*"))
	if err != nil {
		return err
	}
	for _, icon := range icons {
		content, err := os.ReadFile(icon)
		if err != nil {
			return err
		}
		s.add("icons/"+filepath.Base(icon), content)
	}
	return nil
}

// integrities lists the URL and integrity (W3C Subresource Integrity) of every
// file that wanted asks for, in a fixed order.
func (s *site) integrities(wanted func(url string) bool) [][2]string {
	list := [][2]string{}
	for url, content := range s.files {
		if !wanted(url) {
			continue
		}
		sum := sha256.Sum256(content)
		list = append(list, [2]string{url, "sha256-" + base64.StdEncoding.EncodeToString(sum[:])})
	}
	slices.SortFunc(list, func(a, b [2]string) int { return strings.Compare(a[0], b[0]) })
	return list
}

// hash is the version of what was added so far: it changes with any byte.
func (s *site) hash() string {
	h := sha256.New()
	for _, entry := range s.integrities(func(string) bool { return true }) {
		fmt.Fprintln(h, entry[0], entry[1])
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}
