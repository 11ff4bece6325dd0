package server_test

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os/exec"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/testkit"
)

// shell runs a command of the real program.
func shell(t *testing.T, stdin string, args ...string) (status int, out, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	cmd := exec.Command(build(t), args...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(stdin), &stdout, &stderr
	if err := cmd.Run(); cmd.ProcessState == nil {
		require.NoError(t, err)
	}
	return cmd.ProcessState.ExitCode(), stdout.String(), stderr.String()
}

// serve runs the real program on a free port and returns its base URL.
func serve(t *testing.T) string {
	t.Helper()
	p := start(t, build(t), t.TempDir())
	t.Cleanup(func() {
		require.NoError(t, p.cmd.Process.Signal(syscall.SIGTERM))
		assert.NoError(t, p.cmd.Wait(), "the server stops cleanly")
	})
	return p.url
}

// Every golden request gives the same bytes over HTTP and from the shell, and
// both agree with the golden answer.
func TestDoors_answerAlike(t *testing.T) {
	base := serve(t)
	for _, g := range testkit.Goldens(t) {
		t.Run(g.Calculation+"/"+g.Name, func(t *testing.T) {
			resp, err := http.Post(base+"/api/v1/calc/"+g.Calculation, "application/json", bytes.NewReader(g.Request))
			require.NoError(t, err)
			defer resp.Body.Close()
			overHTTP, err := io.ReadAll(resp.Body)
			require.NoError(t, err)

			status, out, errs := shell(t, string(g.Request), "calc", g.Calculation)
			said := out
			if isError := bytes.Contains(g.Answer, []byte(`{"error":`)); isError {
				assert.Equal(t, 2, status)
				assert.Equal(t, http.StatusBadRequest, resp.StatusCode)
				assert.Empty(t, out)
				said = errs
			} else {
				assert.Equal(t, 0, status)
				assert.Equal(t, http.StatusOK, resp.StatusCode)
				assert.Empty(t, errs)
			}
			assert.Equal(t, said, string(overHTTP))
			testkit.RequireJSONNear(t, g.Answer, overHTTP, 1e-9)
		})
	}
}

func TestDoors_badRequests(t *testing.T) {
	base := serve(t)
	for _, row := range []struct {
		name, method, path, body string
		status                   int
		contains                 string
	}{
		{"unknown calculation", "POST", "/api/v1/calc/waer", `{}`, 404, "unknown_name"},
		{"too large", "POST", "/api/v1/calc/wear", strings.Repeat(" ", engine.MaxRequestBytes+1), 413, "too_large"},
		{"wrong method", "GET", "/api/v1/calc/wear", ``, 405, "not_allowed"},
		{"no such address", "GET", "/api/v1/nothing", ``, 404, "not_found"},
		{"empty body", "POST", "/api/v1/calc/wear", ``, 400, "invalid_json"},
	} {
		t.Run(row.name, func(t *testing.T) {
			req, err := http.NewRequest(row.method, base+row.path, strings.NewReader(row.body))
			require.NoError(t, err)
			resp, err := http.DefaultClient.Do(req)
			require.NoError(t, err)
			defer resp.Body.Close()
			body, err := io.ReadAll(resp.Body)
			require.NoError(t, err)
			assert.Equal(t, row.status, resp.StatusCode)
			assert.Contains(t, string(body), row.contains)
			assert.Equal(t, "nosniff", resp.Header.Get("X-Content-Type-Options"))
		})
	}
}

func TestOpenAPI_hasEveryCalculation(t *testing.T) {
	resp, err := http.Get(serve(t) + "/api/v1/openapi.json")
	require.NoError(t, err)
	defer resp.Body.Close()
	var document struct {
		OpenAPI string
		Paths   map[string]any
	}
	require.NoError(t, json.NewDecoder(resp.Body).Decode(&document))
	assert.Equal(t, "3.1.0", document.OpenAPI)
	for _, c := range engine.Calculations() {
		assert.Contains(t, document.Paths, "/api/v1/calc/"+c.Name)
	}
}

func TestProgram_commandLine(t *testing.T) {
	for _, row := range []struct {
		args     []string
		status   int
		contains string
	}{
		{[]string{"version"}, 0, "tautspan"},
		{[]string{"calc"}, 0, "wear"},
		{[]string{"calc", "waer"}, 2, "unknown_name"},
		{[]string{""}, 2, "there is no command"},
		{[]string{"ride"}, 2, "there is no command"},
		{[]string{"serve", "--adr", "x"}, 2, "-addr"},
		{[]string{"serve", "now"}, 2, "not expected"},
	} {
		status, out, errs := shell(t, "{}", row.args...)
		assert.Equal(t, row.status, status, "%v", row.args)
		assert.Contains(t, out+errs, row.contains, "%v", row.args)
	}
}
