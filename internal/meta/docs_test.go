package meta_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// madeUp is in a path of the documents that stands for others, such as
// internal/NAME, or that the build makes.
var madeUp = regexp.MustCompile(`[A-Z]{4}|^dist/`)

// Every link, every path and every test that the documents name is there. Paths
// are from the top, from the document, or from assets or its src.
func TestDocuments_nameWhatIsThere(t *testing.T) {
	root := testkit.Root(t)
	link, quoted := regexp.MustCompile(`\]\(([^)#:]+)\)`), regexp.MustCompile("`([^`\n]+)`")
	path, test := regexp.MustCompile(`^[\w.*-]+(/[\w.*-]+)+/?$`), regexp.MustCompile(`^(Test|Fuzz|Benchmark)\w+$`)
	all := goTests(t)
	for _, document := range tracked(t) {
		if !strings.HasSuffix(document, ".md") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, document))
		require.NoError(t, err)
		here := filepath.Join(root, filepath.Dir(document))
		for _, to := range link.FindAllStringSubmatch(string(text), -1) {
			assert.FileExists(t, filepath.Join(here, to[1]), document)
		}
		for _, word := range quoted.FindAllStringSubmatch(string(text), -1) {
			switch name := word[1]; {
			case madeUp.MatchString(name):
			case test.MatchString(name):
				assert.True(t, strings.Contains(all, "\nfunc "+name+"("), "%s: no test is called %s", document, name)
			case path.MatchString(name):
				assert.True(t, isThere(name, root, here, filepath.Join(root, "assets"), filepath.Join(root, "assets", "src")),
					"%s: there is no %s", document, name)
			}
		}
	}
}

func isThere(path string, folders ...string) bool {
	for _, folder := range folders {
		if found, err := filepath.Glob(filepath.Join(folder, path)); err == nil && len(found) > 0 {
			return true
		}
	}
	return false
}

// goTests is the text of all Go tests.
func goTests(t *testing.T) string {
	t.Helper()
	all := strings.Builder{}
	for _, file := range tracked(t) {
		if strings.HasSuffix(file, "_test.go") {
			text, err := os.ReadFile(filepath.Join(testkit.Root(t), file))
			require.NoError(t, err)
			all.Write(text)
		}
	}
	return all.String()
}
