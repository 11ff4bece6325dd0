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

// No browser test reads the place it came from or waits for a while: places are
// gone to with goTo, which waits until they are drawn, and everything else is
// waited for by what it shows. Only the harness's phone.js may do otherwise.
func TestBrowserTests_dependOnNoSpeed(t *testing.T) {
	folder := filepath.Join(testkit.Root(t), "assets", "test", "browser")
	tests, err := filepath.Glob(filepath.Join(folder, "*.test.js"))
	require.NoError(t, err)
	harness, err := filepath.Glob(filepath.Join(folder, "harness", "*.js"))
	require.NoError(t, err)
	require.NotEmpty(t, tests)
	visit, plain := regexp.MustCompile(`\.goto\(([^)]*)`), regexp.MustCompile(`^'[^'#]*'`)
	for _, path := range append(tests, harness...) {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		name := filepath.Base(path)
		if name == "phone.js" {
			continue
		}
		for _, to := range visit.FindAllStringSubmatch(string(text), -1) {
			assert.Regexp(t, plain, to[1], "%s: goTo waits until a place is drawn, goto does not", name)
		}
		assert.False(t, strings.Contains(string(text), "waitForTimeout("), "%s waits for a while, not for a thing", name)
	}
}
