package meta_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// At most three packages run in the page, all at exact versions, so that what a
// phone loads is known and small.
func TestNpm_fewAndExact(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(testkit.Root(t), "assets", "package.json"))
	require.NoError(t, err)
	var manifest struct {
		Dependencies    map[string]string `json:"dependencies"`
		DevDependencies map[string]string `json:"devDependencies"`
	}
	require.NoError(t, json.Unmarshal(text, &manifest))
	assert.LessOrEqual(t, len(manifest.Dependencies), 3)
	exact := regexp.MustCompile(`^\d+\.\d+\.\d+$`)
	for _, group := range []map[string]string{manifest.Dependencies, manifest.DevDependencies} {
		for name, version := range group {
			assert.Regexp(t, exact, version, name)
		}
	}
}
