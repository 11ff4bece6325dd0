package server_test

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/server"
)

// Whoever runs a server finds every flag in the one document for them.
func TestFlags_areDocumented(t *testing.T) {
	var help bytes.Buffer
	assert.Equal(t, 2, server.Command(context.Background(), []string{"--help"}, &help))
	flags := regexp.MustCompile(`(?m)^  -([\w-]+)`).FindAllStringSubmatch(help.String(), -1)
	require.Greater(t, len(flags), 10)
	text, err := os.ReadFile("docs/operating.md")
	require.NoError(t, err)
	for _, flag := range flags {
		assert.Regexp(t, "--"+flag[1]+`\b`, string(text))
	}
}
